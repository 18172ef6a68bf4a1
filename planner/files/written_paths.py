"""Paths that one file writes of another: relative to its own folder, and without the name of anybody's home folder."""

from __future__ import annotations

import os
from pathlib import Path

HOME = "~/"  # begins the path of a file in the home folder, in a file outside it


def written_path(place: str | Path, folder: str | Path) -> str:
    """How a file in ``folder`` names ``place``. Raises ValueError for a place on another drive."""
    there, here, home = (Path(os.path.realpath(one)) for one in (place, folder, os.path.expanduser("~")))
    if there.is_relative_to(home) and not here.is_relative_to(home):
        return HOME + there.relative_to(home).as_posix()
    return Path(os.path.relpath(there, here)).as_posix()


def place_of(written: str, folder: str | Path) -> Path:
    """What a file in ``folder`` names so. It need not be there."""
    start = os.path.expanduser("~") if written.startswith(HOME) else os.path.realpath(folder)
    return Path(os.path.normpath(os.path.join(start, written.removeprefix(HOME))))
