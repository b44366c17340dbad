"""The scripts of .ci are for bash: their tests are collected where bash is at home."""

from __future__ import annotations

import os

collect_ignore = ["test_ci.py", "test_setup.py"] if os.name == "nt" else []
