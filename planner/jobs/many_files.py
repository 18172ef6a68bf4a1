"""Files of one kind from what was named: files as they are, and folders for what they hold of it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from pathlib import Path

from planner.domain.findings import Finding, UserError
from planner.files.load import yaml_files
from planner.files.locate import shown

_HEAD = 4096  # bytes that are looked at for the kind


def is_of_kind(path: Path, kind: str) -> bool:
    """By its first line, or in JSON its first key; False for what cannot be read. ``kind``: such as athlete."""
    begins = re.compile(rb"^[\s{]*\"?file\"?\s*:\s*[\"']?" + kind.encode() + rb"\b", re.MULTILINE)
    try:
        with path.open("rb") as stream:
            return begins.search(stream.read(_HEAD)) is not None
    except OSError:
        return False


def files_in(folder: Path, kind: str) -> list[Path]:
    """Of this kind, at any depth, sorted by name."""
    return [path for _, path in yaml_files(folder) if is_of_kind(path, kind)]


def files_named(paths: Sequence[str], kind: str) -> list[str]:
    """Each once, in the order named. UserError for a folder that holds none."""
    found: dict[str, None] = {}
    for path in paths:
        inside = [one.as_posix() for one in files_in(Path(path), kind)] if Path(path).is_dir() else [path]
        if not inside:
            article = "an" if kind[0] in "aeiou" else "a"
            message, hint = f"no file in this folder is {article} {kind}", "check the path"
            raise UserError([Finding(shown(path), 0, 0, "nothing-in-folder", message, hint)])
        found.update(dict.fromkeys(inside))
    return list(found)


def by_stem(paths: Sequence[str]) -> dict[str, str]:
    """Paths by their name without ending, for files made of each. UserError where two share a name."""
    found: dict[str, str] = {}
    for path in paths:
        stem = Path(path).stem
        if stem in found:
            message = f"two files are called {stem}: {found[stem]} and {path}"
            raise UserError(
                [Finding(shown(path), 0, 0, "name-twice", message, "rename one of them, or run them apart")]
            )
        found[stem] = path
    return found
