"""The line by which editors find a file's schema: put on top of files of ours, and told where it leads nowhere."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from files.snippets import ATHLETE
from planner.files.editor_lines import add_editor_lines, schema_file, write_schemas
from planner.files.file_checker import Checker
from planner.files.schema import SCHEMAS
from planner.rules.own_limits import own_limits


@pytest.mark.parametrize(
    ("first", "column", "hint"),
    [
        ("# yaml-language-server: $schema=schemas/athlete.schema.json", 0, ""),
        ("# yaml-language-server: $schema=https://example.org/x.json", 0, ""),
        ("# yaml-language-server: $schema=no/athlete.schema.json", 33, "schemas/athlete.schema.json"),
        ("# yaml-language-server: no schema", 0, ""),
        ("# a remark", 0, ""),
    ],
)
def test_an_editor_s_line_that_leads_nowhere_is_told_with_the_right_one(
    tmp_path: Path, first: str, column: int, hint: str
) -> None:
    (tmp_path / "schemas").mkdir()
    (tmp_path / "schemas/athlete.schema.json").write_text("{}", "utf-8")
    path = tmp_path / "nora.yaml"
    path.write_text(f"{first}\n{ATHLETE}", "utf-8")
    told = [one for one in Checker().check(path) if one.code == "editor-line"]
    assert [(one.line, one.column, one.level) for one in told] == ([(1, column, "note")] if column else [])
    if column:
        assert told[0].hint == f"write # yaml-language-server: $schema={hint}" and told[0].source_line == first
        (tmp_path / "schemas/athlete.schema.json").unlink()
        assert [one.hint for one in Checker().check(path) if one.code == "editor-line"] == ["delete the line"]


def test_the_line_for_editors_goes_on_top_of_files_of_ours_alone(tmp_path: Path) -> None:
    texts = {
        "nora.yaml": "file: athlete/1\r\nname: Nora\r\n",
        "deep/box.yaml": "# boxes\nfile: equipment/1\nequipment: []\n",
        "odd.yaml": "file: odd/1\n",
        "broken.yaml": "file: [\n",
    }
    for name, text in texts.items():
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_bytes(text.encode())
    add_editor_lines(tmp_path, tmp_path / "schemas")
    lines = {
        "nora.yaml": "# yaml-language-server: $schema=schemas/athlete.schema.json\r\n",
        "deep/box.yaml": "# yaml-language-server: $schema=../schemas/library.schema.json\n",
    }
    for name, text in texts.items():
        assert (tmp_path / name).read_bytes().decode() == lines.get(name, "") + text
    write_schemas(tmp_path / "schemas", own_limits())
    written = {path.name: json.loads(path.read_text("utf-8"))["title"] for path in (tmp_path / "schemas").iterdir()}
    assert written == {schema_file(name): f"jumpblock {name}" for name in SCHEMAS}
