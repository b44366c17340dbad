"""What .ci/setup says on a machine that lacks something, tried on make-believe machines."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

LIBRARIES = "libGL.so.1 (libc6) => /x\nlibEGL.so.1 (libc6) => /x\n"
NEEDED = ("bash", "dirname", "sed", "uname", "cat", "env", "true")


def machine(top: Path, *, python: str, libraries: str, sudo: bool = False) -> Path:
    """A folder of commands that stands for a machine: its Python's version, what the loader knows, who may install."""
    commands = top / "commands"
    commands.mkdir()
    for name in NEEDED:
        found = shutil.which(name)
        assert found
        (commands / name).symlink_to(found)
    _command(
        commands / "python3",
        f'case "$*" in *"not (3, 11)"*) exit {int(python < "3.11")} ;; *sys.executable*) echo "$0" ;; esac',
    )
    _command(commands / "ldconfig", f"printf '{libraries}'")
    _command(commands / "apt-get", 'echo "$*" >>"$(dirname "$0")/asked"')
    _command(commands / "apt-cache", "echo '  Candidate: 3.12.3-0ubuntu2'")
    _command(commands / "id", "echo 1000")
    _command(commands / "sudo", "shift; exec \"$@\"" if sudo else "exit 1")
    return commands


def _command(path: Path, body: str) -> None:
    path.write_text(f"#!/bin/bash\n{body}\n", encoding="utf-8", newline="\n")
    path.chmod(0o755)


def setup_on(commands: Path, checkout: Path) -> subprocess.CompletedProcess[str]:
    """Run a copy of .ci/setup with those commands alone."""
    (commands.parent / ".ci").mkdir()
    shutil.copy(checkout / ".ci" / "setup", commands.parent / ".ci")
    environment = {"PATH": str(commands)}
    command = [str(commands / "bash"), str(commands.parent / ".ci" / "setup")]
    return subprocess.run(command, env=environment, capture_output=True, text=True)


def test_missing_libraries_are_named_in_one_line(checkout: Path, tmp_path: Path) -> None:
    """Where nothing may be installed, one line names the packages that are missing, and the setup fails."""
    ran = setup_on(machine(tmp_path, python="3.12", libraries="libGL.so.1 (libc6) => /x\n"), checkout)
    assert ran.returncode == 1
    assert ran.stderr.count("\n") == 1
    assert "missing libegl1" in ran.stderr
    assert "libgl1 " not in ran.stderr
    assert not (tmp_path / ".venv").exists()


def test_an_old_python_is_not_taken(checkout: Path, tmp_path: Path) -> None:
    """A Python older than 3.11 is passed over, and the package of a newer one is named."""
    ran = setup_on(machine(tmp_path, python="3.10", libraries=LIBRARIES), checkout)
    assert ran.returncode == 1
    assert "missing python3 python3-venv" in ran.stderr


def test_who_may_install_has_it_installed(checkout: Path, tmp_path: Path) -> None:
    """Where sudo asks no password, apt-get is asked for what is missing; if that does not help, the setup fails."""
    commands = machine(tmp_path, python="3.12", libraries="libGL.so.1 (libc6) => /x\n", sudo=True)
    ran = setup_on(commands, checkout)
    assert ran.returncode == 1
    asked = (commands / "asked").read_text(encoding="utf-8").splitlines()
    assert asked[0] == "update -qq"
    assert asked[1].startswith("install -y -qq --no-install-recommends libegl1")
