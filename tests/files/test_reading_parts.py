"""Small parts of reading: where a node is, what is refused and where, which files are read and how they are found."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from files.snippets import ATHLETE, changed, findings_of
from files.test_library_folder import EQUIPMENT, HOPS, SQUATS
from planner.domain.findings import Finding, UserError
from planner.files.document import Document, Loaded, Place
from planner.files.load import load_bytes, load_file, load_library, read_bytes, read_document, yaml_files
from planner.files.locate import Located, locate_template, locate_templates, shown, template_names
from planner.files.render import finding_to_json, format_finding, in_order
from planner.files.syntax import DEEPEST, MOST_ENTRIES, read_tree
from planner.files.tree import Mark, child, find
from planner.files.tree import Path as Steps

TEXT = "file: athlete/1\na:\n  - b: [1, 2]\n    c:\nd: {e: 3}\n"


def document(text: str = TEXT) -> Document:
    found = read_document(text.encode(), "shown.yaml", "digest")[0]
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("path", "on_key", "line", "column"),
    [
        ((), False, 1, 1),
        (("a",), False, 3, 3),
        (("a",), True, 2, 1),
        (("a", 0), False, 3, 5),
        (("a", 0, "b", 1), False, 3, 12),
        (("a", 0, "b", 1), True, 3, 12),
        (("a", 0, "c"), False, 4, 5),  # it has no value: its name
        (("a", 0, "b", 2), False, 3, 8),  # not there: where it would be
        (("a", 1, "b"), True, 3, 3),
        (("a", -1), False, 3, 3),
        (("a", "b"), False, 3, 3),
        (("d", "e"), True, 5, 5),
        (("d", 0), False, 5, 4),
        (("x", "y"), True, 1, 1),
    ],
)
def test_a_place_is_that_of_the_value_or_of_what_is_nearest_above_it(
    path: Steps, on_key: bool, line: int, column: int
) -> None:
    mark = document().mark(path, on_key)
    assert (mark.line, mark.column) == (line, column)
    found = document().finding(path, "odd", "is odd", on_key=on_key)
    assert (found.path, found.line, found.column, found.source_line) == (
        "shown.yaml",
        line,
        column,
        TEXT.splitlines()[line - 1],
    )


def test_a_value_is_found_by_its_path_or_not_at_all() -> None:
    root = document().root
    assert find(root, ("a", 0, "b", 1)).text == "2"  # type: ignore[union-attr]
    for path in (("a", 1), ("a", -1), ("a", "0"), ("d", 0), ("x",), ("d", "e", "f")):
        assert find(root, path) is None
    assert child(root, 0) is None


def test_what_was_read_from_nothing_has_no_line() -> None:
    loaded: Loaded[object] = Loaded(None, (), "", "shown.yaml")
    assert loaded.place(("a",)) == Place("shown.yaml", 0, 0)
    assert loaded.finding(("a",), "odd", "is odd").line == 0
    with pytest.raises(UserError):
        loaded.require()
    warned = Loaded("value", (Finding("a", 1, 1, "odd", "is odd", level="warning"),), "", "a")
    assert warned.require() == "value"
    with pytest.raises(UserError):
        Loaded("value", (Finding("a", 1, 1, "odd", "is odd"),), "", "a").require()


def test_a_mark_past_the_last_line_shows_none() -> None:
    assert document().finding(Mark(6, 1, 0, 0), "odd", "is odd").source_line == ""
    assert document("a: 1").finding(Mark(2, 1, 0, 0), "odd", "is odd").source_line == ""


@pytest.mark.parametrize(
    ("text", "line", "column", "code", "says"),
    [
        ("a: b: c", 1, 5, "yaml-syntax", "a ':' that does not belong here; check the indentation, or put the text in"),
        ("a: 1\nb\nc: 1", 2, 1, "yaml-syntax", "a line without 'field: value'; write 'field: value', with a space"),
        ("a: 'b\nc: 1", 1, 4, "yaml-syntax", "a quote is opened here and never closed; close the quote"),
        ("a: [1, 2\nb: 1", 1, 4, "yaml-syntax", "a bracket is not closed, or a comma is missing; check the brackets"),
        ("a:\n b: 1\n  c: 1", 3, 4, "yaml-syntax", "a ':' that does not belong here"),
        (
            "a:\n  b: 1\n c: 1",
            3,
            2,
            "yaml-syntax",
            "the indentation does not fit the lines above; indent fields that",
        ),
        ("a: 'b' c", 1, 8, "yaml-syntax", "text goes on after the closing quote; put all of it in one pair of quotes"),
        ("a: @b", 1, 4, "yaml-syntax", "text may not start with this character; put the text in quotes"),
        ('a: "\\q"', 1, 6, "yaml-syntax", "a backslash means something else in double quotes; use single quotes"),
        ("a: |x\n b", 1, 5, "yaml-syntax", "text follows a | or > on the same line; put the text in quotes"),
        ("a: 1\n\n%b", 3, 3, "yaml-syntax", "the file cannot be read as YAML here; check quotes, brackets"),
        ("# x\n\n%YAML 1.1\n---\na: 1", 3, 1, "directive", "lines that start with % are not read; delete it"),
        ("a: 1\n---\nb: 1", 2, 1, "many-documents", "a second document starts here; delete the line ---"),
        ("a: *b", 1, 4, "alias", "*b points at another place in the file; write the text out, or put it in quotes"),
        ("a: &b 1", 1, 4, "anchor", "&b names a place in the file; delete it, or put the text in quotes"),
        ("a: !b 1", 1, 4, "tag", "a type mark that starts with ! is not read; delete it, or put the text in quotes"),
        ("? [a]\n: 1", 1, 3, "key-not-text", "a field name must be a word, not a list or fields in braces; put"),
        ("<<: {a: 1}", 1, 1, "merge-key", "<< takes in the fields of another place; write the fields out"),
        ("b:\n  12: 1", 2, 3, "key-not-text", 'the field name 12 is not a word; write it in quotes: "12"'),
        (": 1", 1, 1, "key-not-text", 'the field name (nothing) is not a word; write it in quotes: ""'),
        ("a: 1\na: 2", 2, 1, "duplicate-key", "'a' is written twice in the same place, first on line 1; keep one"),
        ('a: "x\\u200b"', 1, 4, "control-character", "the text in quotes makes the hidden character U+200B; delete it"),
        ('a: "\\UFFFFFFFF"', 1, 1, "yaml-syntax", "the file cannot be read as YAML; compare it with a shipped file"),
        ('a: "\\U00110000"', 1, 1, "yaml-syntax", "the file cannot be read as YAML; compare it with a shipped file"),
        ('a: "x\\ry"', 1, 4, "control-character", "the text in quotes makes the hidden character U+000D; delete it"),
        ('"x\\u0007": 1', 1, 1, "control-character", "the text in quotes makes the hidden character U+0007; delete it"),
    ],
)
def test_what_is_not_read_is_told_where_it_is(text: str, line: int, column: int, code: str, says: str) -> None:
    found = read_tree(text.encode(), "shown.yaml")[2][0]
    assert (found.line, found.column, found.code) == (line, column, code)
    assert f"{found.message}; {found.hint}".startswith(says) and found.hint
    assert found.source_line == text.split("\n")[line - 1]
    assert found.other == ("shown.yaml:1" if code == "duplicate-key" else "")


@pytest.mark.parametrize("quoted", ['"<<": 1', '"12": 1', '"": 1', "b: 'x: y'", "a: 1\nb: {a: 1}"])
def test_what_is_only_like_it_is_read(quoted: str) -> None:
    assert read_tree(quoted.encode(), "shown.yaml")[2] == []


def test_depth_and_length_are_bounded_at_their_edges() -> None:
    for depth, code in ((DEEPEST, []), (DEEPEST + 1, ["too-deep"])):
        assert [one.code for one in read_tree(("[" * depth + "]" * depth).encode(), "a")[2]] == code
    for count, code in ((MOST_ENTRIES, []), (MOST_ENTRIES + 1, ["too-large"])):
        assert [one.code for one in read_tree(("[" + "1," * count + "]").encode(), "a")[2]] == code


def test_hidden_files_and_others_are_no_files_of_a_library(tmp_path: Path) -> None:
    for name in ("b.yaml", "a.yml", ".c.yaml", "d.txt", "e/f.yaml", ".g/h.yaml"):
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text("", "utf-8")
    (tmp_path / "folder.yaml").mkdir()
    assert [name for name, _ in yaml_files(tmp_path)] == ["a.yml", "b.yaml", "e/f.yaml"]


def test_a_file_too_large_to_read_is_told_with_its_size(tmp_path: Path) -> None:
    for size, told in ((128 * 2**20, False), (129 * 2**20, True)):
        with (tmp_path / "big.yaml").open("wb") as stream:
            stream.truncate(size)
        if told:
            raw, (found,) = read_bytes(tmp_path / "big.yaml", "big.yaml")
            assert (raw, found.code, found.line, found.column) == (None, "too-large", 0, 0)
            assert found.message == "the file is 129 MiB, larger than any of ours"
    assert load_file(tmp_path).findings[0].message == "this is a folder, not a file"


def test_an_id_written_twice_is_told_with_the_first_place(tmp_path: Path) -> None:
    (tmp_path / "a.yaml").write_text(EQUIPMENT, "utf-8")
    (tmp_path / "b.yaml").write_text(EQUIPMENT, "utf-8")
    (tmp_path / "c.yaml").write_text(HOPS, "utf-8")
    (tmp_path / "d.yaml").write_text(HOPS, "utf-8")
    (tmp_path / "e.yaml").write_text(SQUATS, "utf-8")
    found = [f"{one.path}:{one.line} {one.message} {one.other}" for one in load_library(tmp_path, "library/").findings]
    assert found == [
        "library/b.yaml:3 the equipment 'rack' is written twice, first at library/a.yaml:3 library/a.yaml:3",
        "library/b.yaml:4 the equipment 'box' is written twice, first at library/a.yaml:4 library/a.yaml:4",
        "library/d.yaml:4 the movement 'ankle-hop' is written twice, first at library/c.yaml:4 library/c.yaml:4",
        "library/d.yaml:17 the movement 'knee-hop' is written twice, first at library/c.yaml:17 library/c.yaml:17",
    ]


def test_a_path_is_shown_from_the_working_folder_or_by_its_end(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "a/b").mkdir(parents=True)
    monkeypatch.chdir(tmp_path / "a")
    assert shown("b") == "b" and shown(tmp_path / "a/b/c.yaml") == "b/c.yaml"
    assert shown(tmp_path) == tmp_path.name and shown(tmp_path / "c.yaml") == f"{tmp_path.name}/c.yaml"


def test_what_is_below_a_located_folder_keeps_how_it_was_found(tmp_path: Path) -> None:
    at = Located(tmp_path, "mine", "as asked for") / "a.yaml"
    assert (at.path, at.display, at.how, at.is_packaged) == (tmp_path / "a.yaml", "mine/a.yaml", "as asked for", False)
    assert locate_templates().is_packaged


@pytest.mark.parametrize("kind", ["blocks", "limits", "benchmarks", "cards", "follow-up", "athletes"])
def test_a_folder_of_templates_counts_with_any_of_our_kinds(tmp_path: Path, kind: str) -> None:
    (tmp_path / "templates" / kind).mkdir(parents=True)
    assert locate_templates(tmp_path / "nora.yaml").path == tmp_path / "templates"
    (tmp_path / f"templates/{kind}/own.yaml").write_text("x", "utf-8")
    (tmp_path / f"templates/{kind}/no.txt").write_text("x", "utf-8")
    names = template_names(kind, tmp_path)  # type: ignore[arg-type]
    assert "own" in names and names == sorted(names) and "no" not in names


@pytest.mark.parametrize("name", ["a.yaml", "a.yml", "b/a"])
def test_what_looks_like_a_path_is_one(name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    with pytest.raises(UserError) as refused:
        locate_template(name)
    assert refused.value.findings[0].message == "there is no such file"
    (tmp_path / name).parent.mkdir(exist_ok=True)
    (tmp_path / name).write_text("x", "utf-8")
    assert locate_template(name).path == Path(name)


def test_findings_are_in_the_order_of_their_places_each_once() -> None:
    one, two, three = (Finding("a", line, 1, "odd", "is odd") for line in (3, 12, 101))
    assert in_order([three, one, two, one]) == [one, two, three]
    assert format_finding(one).splitlines() == ["a:3:1: [odd] is odd"]
    assert finding_to_json(two) == {
        "path": "a",
        "line": 12,
        "column": 1,
        "level": "error",
        "code": "odd",
        "message": "is odd",
        "hint": "",
        "other": "",
    }


@pytest.mark.parametrize(
    ("line", "code", "says"),
    [
        ("file: athlete/1", "", ""),
        ("file: athlete/2", "unknown-file-version", "version '2' of athlete is not known; write athlete/1"),
        ("file: athlete", "unknown-file-version", "'athlete' has no version; write athlete/1"),
        ("file: athlet/1", "unknown-file-kind", "'athlet/1' is not a kind of file; did you mean 'athlete/1'?"),
        ("file: movement", "unknown-file-kind", "'movement' is not a kind of file; did you mean 'movements/1'?"),
        ("file: zzz", "unknown-file-kind", "'zzz' is not a kind of file; use one of: athlete/1, movements/1,"),
        ("kind: athlete/1", "no-file-kind", "the first line does not say what the file is; write 'file: ' and one of"),
    ],
)
def test_the_first_line_says_what_the_file_is(line: str, code: str, says: str) -> None:
    found = findings_of(changed("file: athlete/1", line)[0])
    assert [(one.code, one.line) for one in found] == ([(code, 1)] if code else [])
    assert all(f"{one.message}; {one.hint}".startswith(says) for one in found)


def test_the_first_line_that_is_wanted_is_told() -> None:
    (found,) = load_bytes(b"a: 1\nfile: athlete/1\n", "a.yaml", ("template/1",)).findings
    assert (found.code, found.line, found.hint) == ("file-kind-not-first", 2, "move this line to the top")
    (found,) = load_bytes(b"a: 1\n", "a.yaml", ("template/1",)).findings
    assert found.hint == "write file: template/1 as the first line"
    (found,) = load_bytes(b"{}\n", "a.yaml", ("template/1",)).findings
    assert found.hint == "its first line says what it is, such as file: template/1"
    (found,) = load_bytes(b"{}\n", "a.yaml", ("template/1", "limits/1")).findings
    assert found.hint.endswith("such as file: athlete/1")
    (found,) = load_bytes(ATHLETE.encode(), "a.yaml", ("template/1", "limits/1")).findings
    assert found.message == "expected file: template/1 or limits/1, found file: athlete/1"


def test_a_device_or_a_pipe_is_told_without_waiting_for_it(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.yaml")
    (found,) = load_file(tmp_path / "pipe.yaml", "pipe.yaml").findings
    assert (found.path, found.line, found.column, found.code) == ("pipe.yaml", 0, 0, "cannot-read")
    assert (found.message, found.hint) == ("this is a device or a pipe, not a file", "write it to a file first")
