"""The folder of an earlier release, unpacked once."""

from __future__ import annotations

import atexit
import shutil
import tarfile
import tempfile
from functools import cache
from pathlib import Path

ARCHIVE = Path(__file__).parent / "folder_2026_11.tar.gz"


@cache
def older_folder() -> Path:
    """A folder that all tests of a run share: for reading only."""
    place = Path(tempfile.mkdtemp(prefix="older_folder_"))
    atexit.register(shutil.rmtree, place, ignore_errors=True)
    with tarfile.open(ARCHIVE) as archive:
        archive.extractall(place, filter="data")
    return place / "folder_2026_11"
