"""A coach's own folder: copies of the library and the templates, to be edited, and what a YAML editor needs."""

from __future__ import annotations

import shutil
import tempfile
from pathlib import Path

from planner.domain.findings import Finding, UserError
from planner.files.editor_lines import SCHEMA_FOLDER, add_editor_lines, write_schemas
from planner.files.locate import LIBRARY, TEMPLATES, packaged
from planner.rules.own_limits import own_limits


def start_folder(directory: Path) -> None:
    """Fill ``directory``, made if need be. Raises UserError where something is there already or it cannot be filled."""
    copies = {name: packaged(name) for name in (LIBRARY, TEMPLATES)}
    _refuse_overwriting(directory, [*copies, SCHEMA_FOLDER])
    made = None if directory.exists() else next(p for p in (directory, *directory.parents) if p.parent.exists())
    try:
        _copy(directory, copies)
    except OSError as error:
        if made is not None:
            shutil.rmtree(made, ignore_errors=True)
        message = f"the folder cannot be filled: {error.strerror or 'the system refused'}"
        raise UserError([Finding(directory.as_posix(), 0, 0, "cannot-write", message, "check the folder")]) from error


def _refuse_overwriting(directory: Path, names: list[str]) -> None:
    def refusal(path: Path, message: str, hint: str) -> Finding:
        return Finding(path.as_posix(), 0, 0, "already-there", message, hint)

    if directory.exists() and not directory.is_dir():
        raise UserError([refusal(directory, "this is a file, not a folder", "name another folder")])
    there = [directory / name for name in names if (directory / name).exists() or (directory / name).is_symlink()]
    if there:
        message = "this already exists; it is not overwritten"
        raise UserError([refusal(path, message, "name another folder, or move it away first") for path in there])


def _copy(directory: Path, copies: dict[str, Path]) -> None:
    """Copy next to the goal first, and move into place at the end, so that no half-filled folder is left behind."""
    directory.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(dir=directory, prefix=".start-") as temporary:
        for name, source in copies.items():
            # File contents only: an installed copy may be read-only, a coach's is to be edited.
            shutil.copytree(source, Path(temporary) / name, copy_function=shutil.copyfile)
        write_schemas(Path(temporary) / SCHEMA_FOLDER, own_limits())
        for name in copies:
            add_editor_lines(Path(temporary) / name, Path(temporary) / SCHEMA_FOLDER)
        for name in [*copies, SCHEMA_FOLDER]:
            (Path(temporary) / name).rename(directory / name)
