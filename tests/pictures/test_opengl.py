"""Asking for OpenGL without crashing."""

from __future__ import annotations

import os

import pytest

from model3d.pictures import opengl


@pytest.fixture(autouse=True)
def _fresh_answer() -> None:
    """Each test asks anew."""
    opengl.working_window.cache_clear()


def test_a_machine_without_drivers_is_found_out() -> None:
    """Where EGL finds no driver, the probe says no, though VTK itself crashes."""
    blocked = {**os.environ, "__EGL_VENDOR_LIBRARY_FILENAMES": "/nowhere.json"}
    assert opengl.probe("vtkEGLRenderWindow", blocked) is False


def test_the_refusal_is_one_line_with_the_package(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without OpenGL there is one line that names the Debian package to install."""

    def nothing(window: str) -> bool:
        return window == "none"

    monkeypatch.setattr(opengl, "probe", nothing)
    monkeypatch.setattr(opengl, "loadable", nothing)
    with pytest.raises(opengl.NoOpenGLError) as refusal:
        opengl.ready()
    opengl.working_window.cache_clear()
    assert "\n" not in str(refusal.value)
    assert "libegl1" in str(refusal.value)


@pytest.mark.parametrize(
    ("there", "package"),
    [((), "libegl1"), (("libEGL.so.1",), "libgl1"), (("libEGL.so.1", "libGL.so.1"), "libgl1-mesa-dri")],
)
def test_the_missing_package_is_the_one_not_loadable(
    monkeypatch: pytest.MonkeyPatch, there: tuple[str, ...], package: str
) -> None:
    """The package named is that of the first library that cannot be loaded, else the driver's."""

    def listed(library: str) -> bool:
        return library in there

    monkeypatch.setattr(opengl, "loadable", listed)
    assert opengl.missing_package() == package


def test_the_answer_is_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    """The probe is started once a process."""
    asked: list[str] = []

    def counting(window: str) -> bool:
        asked.append(window)
        return True

    monkeypatch.setattr(opengl, "probe", counting)
    opengl.working_window()
    opengl.working_window()
    opengl.working_window.cache_clear()
    assert len(asked) == 1
