"""What lets a YAML editor complete and check our files: schemas, and in each file the line that names its own."""

from __future__ import annotations

import json
import os
from pathlib import Path

from pydantic import BaseModel

from planner.domain.findings import Finding
from planner.files.edit_spans import line_end_of
from planner.files.kinds import file_kind
from planner.files.load import read_document, yaml_files
from planner.files.schema import SCHEMAS, editor_line, schema, schema_of_kind

SCHEMA_FOLDER = "schemas"


def write_schemas(folder: Path, own_limits: type[BaseModel]) -> None:
    """One file a schema, made anew: they are the planner's, not the coach's. ``own_limits``: see ``schema``."""
    folder.mkdir(exist_ok=True)
    for name in SCHEMAS:
        text = json.dumps(schema(name, own_limits), ensure_ascii=False, indent=1) + "\n"
        (folder / schema_file(name)).write_text(text, "utf-8", newline="\n")


def schema_file(name: str) -> str:
    return f"{name}.schema.json"


def add_editor_lines(folder: Path, schemas: Path) -> None:
    """Put the editors' line on top of every file of ours in a folder; all else in them stays as it is."""
    for name, path in yaml_files(folder):
        raw = path.read_bytes()
        document = read_document(raw, name, "")[0]
        kind = file_kind(document)[0] if document is not None else None
        name_of_schema = schema_of_kind(kind) if kind is not None else None
        if document is not None and name_of_schema is not None:
            relative = os.path.relpath(schemas / schema_file(name_of_schema), path.parent)
            line = editor_line(Path(relative).as_posix()) + line_end_of(document.text)
            path.write_bytes(line.encode("utf-8") + raw)


def editor_line_findings(path: Path, shown: str, kind: str) -> list[Finding]:
    """A note where a file's line for editors leads nowhere, as after copying it to another folder."""
    with path.open(encoding="utf-8-sig", errors="replace") as stream:
        first = stream.readline().rstrip()
    start = editor_line("")
    target = first.removeprefix(start)
    if not first.startswith(start) or "://" in target or (path.parent / target).is_file():
        return []
    near = [folder / SCHEMA_FOLDER / schema_file(kind) for folder in path.absolute().parents]
    there = next((file for file in near if file.is_file()), None)
    hint = "delete the line"
    if there is not None:
        hint = f"write {editor_line(Path(os.path.relpath(there, path.absolute().parent)).as_posix())}"
    message = "this line names the schema for your editor, but the path does not exist from this folder"
    return [Finding(shown, 1, len(start) + 1, "editor-line", message, hint, "note", first)]
