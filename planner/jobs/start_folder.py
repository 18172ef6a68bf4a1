"""A coach's own folder: copies of the library and the templates, to be edited, and what a YAML editor needs."""

from __future__ import annotations

import shutil
from pathlib import Path

from planner.domain.findings import Finding, UserError
from planner.files.editor_lines import SCHEMA_FOLDER, add_editor_lines, write_schemas
from planner.files.locate import LIBRARY, TEMPLATES, packaged
from planner.rules.own_limits import own_limits

# In the coach's folder while it is filled. A run that was killed while it moved the parts is finished by the next.
FILLING, FILLED = ".start-filling", ".start-filled"


def start_folder(directory: Path) -> None:
    """Fill ``directory``, made if need be. Raises UserError where something is there already or it cannot be filled."""
    copies = {name: packaged(name) for name in (LIBRARY, TEMPLATES)}
    names = [*copies, SCHEMA_FOLDER]
    _refuse_overwriting(directory, names)
    made = None if directory.exists() else next(p for p in (directory, *directory.parents) if p.parent.exists())
    try:
        _copy(directory, copies, names)
    except BaseException as error:
        for one in [made] if made is not None else [directory / FILLING]:
            shutil.rmtree(one, ignore_errors=True)
        if not isinstance(error, OSError):
            raise
        message = f"the folder cannot be filled: {error.strerror or 'the system refused'}"
        raise UserError([Finding(directory.as_posix(), 0, 0, "cannot-write", message, "check the folder")]) from error


def _refuse_overwriting(directory: Path, names: list[str]) -> None:
    def refusal(path: Path, message: str, hint: str) -> Finding:
        return Finding(path.as_posix(), 0, 0, "already-there", message, hint)

    if directory.exists() and not directory.is_dir():
        raise UserError([refusal(directory, "this is a file, not a folder", "name another folder")])
    there = [directory / name for name in names if (directory / name).exists() or (directory / name).is_symlink()]
    filled = directory / FILLED
    left = [path for path in there if not filled.is_dir() or (filled / path.name).exists()]
    if left:
        message = "this already exists; it is not overwritten"
        raise UserError([refusal(path, message, "name another folder, or move it away first") for path in left])


def _copy(directory: Path, copies: dict[str, Path], names: list[str]) -> None:
    """Copy next to the goal first, and move into place at the end, so that no half-filled folder is left behind."""
    directory.mkdir(parents=True, exist_ok=True)
    filling, filled = directory / FILLING, directory / FILLED
    if not filled.is_dir():
        shutil.rmtree(filling, ignore_errors=True)
        for name, source in copies.items():
            # File contents only: an installed copy may be read-only, a coach's is to be edited.
            shutil.copytree(source, filling / name, copy_function=shutil.copyfile)
        write_schemas(filling / SCHEMA_FOLDER, own_limits())
        for name in copies:
            add_editor_lines(filling / name, filling / SCHEMA_FOLDER)
        filling.rename(filled)
    for name in names:
        if (filled / name).exists():
            (filled / name).rename(directory / name)
    filled.rmdir()
