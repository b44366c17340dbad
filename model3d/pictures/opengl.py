"""Is there an OpenGL to draw with? Asked once, in a process of its own, because VTK crashes where there is
none.
"""

from __future__ import annotations

import ctypes
import os
import subprocess
import sys
from functools import cache

_VARIABLE = "VTK_DEFAULT_OPENGL_WINDOW"
_WINDOWS = ("vtkEGLRenderWindow", "vtkOSOpenGLRenderWindow")
_PROBE = """
import sys
from vtkmodules.vtkRenderingCore import vtkRenderer, vtkRenderWindow
import vtkmodules.vtkRenderingOpenGL2
window = vtkRenderWindow()
window.SetOffScreenRendering(1)
window.SetSize(32, 32)
window.AddRenderer(vtkRenderer())
window.Render()
sys.stdout.write("drawn " + window.GetClassName())
"""


class NoOpenGLError(RuntimeError):
    """Nothing to draw with; the message is one line that says what to install."""


def ready() -> str:
    """Make VTK ready to draw without a screen; returns the window class that works.

    EGL first, then OSMesa; on Windows and macOS the system's own. Must be called before the first VTK window
    of the process. Raises NoOpenGLError, with the missing Debian package, when none of them can draw.
    """
    window = working_window()
    if window is None:
        raise NoOpenGLError(f"no OpenGL to draw with: install the Debian package {missing_package()}")
    if window in _WINDOWS:
        os.environ[_VARIABLE] = window
    return window


@cache
def working_window() -> str | None:
    """The first VTK window class that can draw here, None when there is none; asked once a process."""
    native = not sys.platform.startswith("linux")
    for window in ("native",) if native else _WINDOWS:
        if probe(window):
            return window
    return None


def probe(window: str, environment: dict[str, str] | None = None) -> bool:
    """Whether a 32 x 32 picture can be drawn with this VTK window class, tried in a process of its own."""
    surroundings = dict(os.environ if environment is None else environment)
    if window != "native":
        surroundings[_VARIABLE] = window
    done = subprocess.run(
        [sys.executable, "-c", _PROBE],
        env=surroundings,
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    return done.returncode == 0 and "drawn" in done.stdout and (window == "native" or window in done.stdout)


def missing_package() -> str:
    """The Debian package whose library cannot be loaded; with the loader there, its Mesa driver."""
    for library, package in (("libEGL.so.1", "libegl1"), ("libGL.so.1", "libgl1")):
        if not loadable(library):
            return package
    return "libgl1-mesa-dri"


def loadable(library: str) -> bool:
    """Whether the system finds and loads a shared library."""
    try:
        ctypes.CDLL(library)
    except OSError:
        return False
    return True
