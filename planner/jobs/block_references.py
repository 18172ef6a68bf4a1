"""Where a block's inputs are: relative to the block's own folder, never an absolute path."""

from __future__ import annotations

import re
from pathlib import Path

from planner.domain.block_parts import PACKAGED_PREFIX, Reference
from planner.files.locate import LIBRARY, TEMPLATES, Located, packaged
from planner.files.text import LARGEST_FILE_bytes
from planner.files.written_paths import place_of, written_path


def reference(located: Located, sha256: str, block_folder: Path) -> Reference:
    """The reference to write into a block in ``block_folder``."""
    if located.is_packaged:
        return Reference(path=f"{PACKAGED_PREFIX}{located.display}", sha256=sha256)
    try:
        path = written_path(located.path, block_folder)
    except ValueError:  # another drive: there is no way from one to the other, so only the name is kept
        path = located.path.name
    return Reference(path=path, sha256=sha256)


def follow(path: str, block_folder: Path) -> Path:
    """The file or folder that a block's reference names. It need not be there."""
    for name in (LIBRARY, TEMPLATES):
        start = f"{PACKAGED_PREFIX}{name}"
        if path == start or path.startswith(f"{start}/"):
            return packaged(name) / path[len(start) :].lstrip("/")
    return place_of(path, block_folder)


def is_of_kind(place: Path, kind: str) -> bool:
    """Whether a file that a block names says that it is of this kind, such as athlete.

    Findings show lines of the file they are about; a block that somebody else sent must not have any other file shown.
    """
    stated = re.compile(rb"^\xef?\xbb?\xbf?[\"{ ]*file[\"]?\s*:\s*[\"']?" + kind.encode() + rb"/", re.MULTILINE)
    with place.open("rb") as stream:
        return stated.search(stream.read(LARGEST_FILE_bytes)) is not None
