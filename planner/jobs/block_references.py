"""Where a block's inputs are: relative to the block's own folder, never an absolute path."""

from __future__ import annotations

import os
from pathlib import Path

from planner.domain.block import Reference
from planner.files.locate import LIBRARY, TEMPLATES, Located, packaged

# A library or template that comes with the planner has no place of its own: it is found again wherever it is installed.
PACKAGED_PREFIX = "(packaged)/"


def reference(located: Located, sha256: str, block_folder: Path) -> Reference:
    """The reference to write into a block in ``block_folder``."""
    if located.is_packaged:
        return Reference(path=f"{PACKAGED_PREFIX}{located.display}", sha256=sha256)
    try:
        relative = os.path.relpath(os.path.realpath(located.path), os.path.realpath(block_folder))
    except ValueError:  # another drive: there is no way from one to the other, so only the name is kept
        relative = located.path.name
    return Reference(path=Path(relative).as_posix(), sha256=sha256)


def follow(path: str, block_folder: Path) -> Path:
    """The file or folder that a block's reference names. It need not be there."""
    for name in (LIBRARY, TEMPLATES):
        start = f"{PACKAGED_PREFIX}{name}"
        if path == start or path.startswith(f"{start}/"):
            return packaged(name) / path[len(start) :].lstrip("/")
    return Path(os.path.normpath(os.path.join(os.path.realpath(block_folder), path)))
