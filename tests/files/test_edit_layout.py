"""What a file is after an edit, to the last character: columns, quotes, brackets, comments, line ends, widths."""

from __future__ import annotations

from typing import Any

import pytest

from planner.files.edit import edited
from planner.files.edit_steps import CannotEdit, FileEdit, Insert, Put, Remove

ABCD = ("a", "b", "c", "d")
LISTED = ("listed", ["one word", "v"])


@pytest.mark.parametrize(
    ("before", "value", "after"),
    [
        ("a: 1\nb: 2\n", 3, "a: 3\nb: 2\n"),
        ("a: 1 # why\nb: 2\n", 3, "a: 3 # why\nb: 2\n"),
        ("a:\nb: 2\n", 3, "a: 3\nb: 2\n"),
        ("a: # why\nb: 2\n", 3, "a: 3 # why\nb: 2\n"),
        ("a: 'x'\n", "it's", "a: 'it''s'\n"),
        ("a: 'x'\n", "two\nlines", 'a: "two\\nlines"\n'),
        ("a: 'x'\n", 7, "a: 7\n"),
        ("a: 'x'\n", "", "a: ''\n"),
        ('a: "x"\n', "plain", 'a: "plain"\n'),
        ('a: "x"\n', 'say "no" \\ go', 'a: "say \\"no\\" \\\\ go"\n'),
        ('a: "x"\n', 7, "a: 7\n"),
        ("a: x\n", "plain", "a: plain\n"),
        ("a: x\n", "12", 'a: "12"\n'),
        ("a: x\n", 2.0, "a: 2.0\n"),
        ("a: x\n", None, "a: null\n"),
        # A text over several lines gives way to one on its field's line.
        ("a: >\n  x\n  y\nb: 1\n", "z", "a: z\nb: 1\n"),
        ("a: |\n  x # y\nb: 1\n", "z", "a: z\nb: 1\n"),
        ('a: "x\n  y"\nb: 1\n', "z", "a: z\nb: 1\n"),
        # Lists of sentences take a line an entry; a few words share one.
        ("a: 1\n", ["u", "v"], "a: [u, v]\n"),
        ("a: 1\n", ["one word", "v"], "a:\n  - one word\n  - v\n"),
        ("a: 1\n", [" x ", "y"], 'a: [" x ", y]\n'),
        ("  a: 1\n", ["one word"], "  a:\n    - one word\n"),
        ("a: 1\n", {"u": 1, "v": 2.0}, "a: {u: 1, v: 2.0}\n"),
        ("a: 1\n", [], "a: []\n"),
        ("a: [u, v]\n", "w", "a: w\n"),
        ("a: [u, v]\n", {"u": 1}, "a: {u: 1}\n"),
        ("a: {u: 1}\n", ["one word"], "a: [one word]\n"),
        ("a: {x: 1, y: 2}\n", {"x": "k: v", "y": 2}, 'a: {x: "k: v", y: 2}\n'),
        ("a: {x: 1, y: 2}\n", {"x": ["one word"], "y": 2}, "a: {x: [one word], y: 2}\n"),
        ("a: {x: 1, y: 2}\n", {"x": "one, two", "y": 2}, 'a: {x: "one, two", y: 2}\n'),
        ("a: [x]\n", ["one, two"], 'a: ["one, two"]\n'),
        ("a: {x: 1, y: 2}\n", {"x": 1, "y": 2, "z": 3}, "a: {x: 1, y: 2, z: 3}\n"),
        ("a: {x: 1, y: 2}\n", {"y": 2}, "a: {y: 2}\n"),
        ("a: {}\n", {"z": 3}, "a: {z: 3}\n"),
        ("a: [1]\n", [1, 3], "a: [1, 3]\n"),
        ("a: []\n", [3], "a: [3]\n"),
        # A list's columns stay as they were.
        ("a:\n    - u\n    - v\nb: 1\n", ["one word", "v", "w"], "a:\n    - one word\n    - v\n    - w\nb: 1\n"),
        ("a:\n- u\n- v\nb: 1\n", ["u"], "a:\n- u\nb: 1\n"),
        ("a:\n- u\n- v\n- w\n- x", ["u", "v"], "a:\n- u\n- v"),
        ("a:\n- u\n- v\nb: 1\n", {"k": "x"}, "a: {k: x}\nb: 1\n"),
        ("a:\n  k: 1\n", ["one two"], "a:\n  - one two\n"),
        ("a:\n  - 1\nb: 2\n", [1, "a: b"], 'a:\n  - 1\n  - "a: b"\nb: 2\n'),
        ("a:\n  - 1\nb: 2\n", [1, {"k": 1}], "a:\n  - 1\n  - {k: 1}\nb: 2\n"),
        ("a:\n  x: 1\n  y: 2\nb: 1\n", {"x": 1, "z": 3}, "a:\n  x: 1\n  z: 3\nb: 1\n"),
        ("a:\n  x: 1\nb: 1\n", {"x": 1, "y": ["one word"]}, "a:\n  x: 1\n  y:\n    - one word\nb: 1\n"),
    ],
)
def test_a_value_for_a_field(before: str, value: Any, after: str) -> None:
    assert edited(before, [Put(("a",), value)]) == after


@pytest.mark.parametrize(
    ("before", "edit", "after"),
    [
        ("a: 1\nc: 3\nd: 4\n", Put(("b",), 2, ABCD), "a: 1\nb: 2\nc: 3\nd: 4\n"),
        ("c: 3\nd:\n", Put(("b",), 2, ABCD), "c: 3\nb: 2\nd:\n"),
        ("a: 1\nb:\n", Put(("c",), 2, ABCD), "a: 1\nb:\nc: 2\n"),
        ("b: 1\nc: 3\n", Put(("a",), 2, ABCD), "b: 1\na: 2\nc: 3\n"),
        ("a: 1\nc: 3\n", Put(("e",), 2, ABCD), "a: 1\nc: 3\ne: 2\n"),
        ("a: 1\nc: 3\n", Put(("b",), 2), "a: 1\nc: 3\nb: 2\n"),
        ("a: 1 # why\nc: 3\n", Put(("b",), 2, ABCD), "a: 1 # why\nb: 2\nc: 3\n"),
        ("a: 1", Put(("b",), 2), "a: 1\nb: 2"),
        ("a: 1\r\nc: 3\r\n", Put(("b",), LISTED[1], ABCD), "a: 1\r\nb:\r\n  - one word\r\n  - v\r\nc: 3\r\n"),
        ("a:\n  - x: 1\n    y:\n", Put(("a", 0, "z"), [1]), "a:\n  - x: 1\n    y:\n    z: [1]\n"),
        ("a: {}\n", Put(("a", "z"), 3), "a: {z: 3}\n"),
        ("a: {x: {y: 1}}\n", Put(("a", "x", "z"), [1]), "a: {x: {y: 1, z: [1]}}\n"),
        ("a: {x: [1]}\n", Put(("a", "x", 1), {"k": 2}), "a: {x: [1, {k: 2}]}\n"),
    ],
)
def test_a_new_field_comes_where_files_usually_have_it(before: str, edit: FileEdit, after: str) -> None:
    assert edited(before, [edit]) == after


@pytest.mark.parametrize(
    ("before", "path", "after"),
    [
        ("a: 1\nb: 2\n", ("a",), "b: 2\n"),
        ("a: 1\nb: 2\n", ("b",), "a: 1\n"),
        ("a: 1\nb: 2", ("b",), "a: 1"),
        ("a: 1\r\nb: 2", ("b",), "a: 1"),
        ("a: 1\rb: 2", ("b",), "a: 1"),
        ("a: 1\nb:\n", ("b",), "a: 1\n"),
        ("a:\n  x: 1\nb: 2\n", ("a", "x"), "a: {}\nb: 2\n"),
        ("a:\n  - 1\nb: 2\n", ("a", 0), "a: []\nb: 2\n"),
        ("a:\n  - 1\n  - 2\nb: 2\n", ("a", 0), "a:\n  - 2\nb: 2\n"),
        ("a:\n  - x: 1\n    y: 2\nb: 2\n", ("a", 0, "y"), "a:\n  - x: 1\nb: 2\n"),
        ("a:\n  - x: 1\n    y: 2\n  - z: 1\n", ("a", 0), "a:\n  - z: 1\n"),
        ("a: 1 # why\nb: 2\n", ("a",), "# why\nb: 2\n"),
        ("a:\n  # one\n  x: 1 # two\n  y: 2\nb: 2\n", ("a",), "# one\n# two\nb: 2\n"),
        ("c: 1\na:\n  x: 1 # one\n  y: 2 # two", ("a", "y"), "c: 1\na:\n  x: 1 # one\n  # two"),
        ("a: '#1'\nb: 2\n", ("a",), "b: 2\n"),
        ("a: [1, 2, 3]\n", ("a", 0), "a: [2, 3]\n"),
        ("a: [1, 2, 3]\n", ("a", 1), "a: [1, 3]\n"),
        ("a: [1, 2, 3]\n", ("a", 2), "a: [1, 2]\n"),
        ("a: [1]\n", ("a", 0), "a: []\n"),
        ("a: {x: 1, y: 2, z: 3}\n", ("a", "x"), "a: {y: 2, z: 3}\n"),
        ("a: {x: 1, y: 2, z: 3}\n", ("a", "y"), "a: {x: 1, z: 3}\n"),
        ("a: {x: 1, y: }\n", ("a", "y"), "a: {x: 1 }\n"),
    ],
)
def test_what_is_taken_out_leaves_the_rest_and_every_comment(
    before: str, path: tuple[str | int, ...], after: str
) -> None:
    assert edited(before, [Remove(path)]) == after


@pytest.mark.parametrize(
    ("before", "index", "after"),
    [
        ("a:\n- x: 1\n\n- x: 2\n", 1, "a:\n- x: 1\n\n- x: 3\n  y: 4\n\n- x: 2\n"),
        ("a:\n- x: 1\n- x: 2\n", 1, "a:\n- x: 1\n- x: 3\n  y: 4\n- x: 2\n"),
        ("a:\n- x: 1\n- x: 2\n", 2, "a:\n- x: 1\n- x: 2\n- x: 3\n  y: 4\n"),
        ("a:\n- x: 1 # why\n- x: 2\n", 1, "a:\n- x: 1 # why\n- x: 3\n  y: 4\n- x: 2\n"),
        ("a:\n- x: 1\n# two\n- x: 2\n", 2, "a:\n- x: 1\n# two\n- x: 2\n- x: 3\n  y: 4\n"),
        ("a:\n- x: 1\n\n# two\n- x: 2", 2, "a:\n- x: 1\n\n# two\n- x: 2\n\n- x: 3\n  y: 4"),
        ("a:\n-   x: 1\n", 1, "a:\n-   x: 1\n\n-   x: 3\n    y: 4\n"),
        ("a:\n  - x: 1\nb: 1\n", 1, "a:\n  - x: 1\n\n  - x: 3\n    y: 4\nb: 1\n"),
        ("a:\r\n- x: 1\r\n- x: 2\r\n", 1, "a:\r\n- x: 1\r\n- x: 3\r\n  y: 4\r\n- x: 2\r\n"),
    ],
)
def test_a_new_entry_has_the_columns_and_the_distance_of_the_others(before: str, index: int, after: str) -> None:
    assert edited(before, [Insert(("a",), index, {"x": 3, "y": 4})]) == after


REFUSED = [
    ("a: > # why\n  x\n  y\nb: 1\n", Put(("a",), "z"), "there is a comment inside the value to be replaced"),
    ("a: | # why\n  x\nb: 1\n", Put(("a",), "z"), "there is a comment inside the value to be replaced"),
    ("a:\n- u # why\n- v\nb: 1\n", Put(("a",), "z"), "there is a comment inside the value to be replaced"),
    ("a:\n  - 1\nb: 2\n", Put(("a", 2), 1), "there is no place for this value"),
    ("a: []\n", Put(("a", 0), 3), "there is no place for this value"),
    ("a: 1\n", Put(("b", "c"), 1), "there is no place for this value"),
    ("a: {x: 1}\n", Remove(("a", "q")), "there is no such field"),
    ("a: {x: 1}\n", Remove(("q", "r")), "there is no such field"),
    ("a:\n  - x: 1\n    y: 2\n", Remove(("a", 0, "x")), "the field shares its line with another"),
    ("a: {x: 1, # why\n  y: 2}\n", Remove(("a", "y")), "there are comments next to the value to be removed"),
    ("a: {x: 1, # why\n  y: 2}\n", Remove(("a", "x")), "there are comments next to the value to be removed"),
    ("a:\n- x: 1\n- x: 2\n", Insert(("a",), -1, {"x": 3}), "there is no such place in the list"),
    ("a:\n- x: 1\n- x: 2\n", Insert(("a",), 3, {"x": 3}), "there is no such place in the list"),
    ("a: [{x: 1}]\n", Insert(("a",), 1, {"x": 3}), "the list is written in brackets"),
    ("a: 1\n", Insert(("a",), 1, {"x": 3}), "the list is written in brackets"),
    ("a: [\n", Put(("a",), 1), "the file cannot be read"),
    ("a: 1\na: 2\n", Put(("a",), 3), "the file cannot be read"),
]


@pytest.mark.parametrize(("before", "edit", "says"), REFUSED)
def test_what_cannot_be_done_without_touching_more_is_refused_with_what_to_do(
    before: str, edit: FileEdit, says: str
) -> None:
    with pytest.raises(CannotEdit) as refused:
        edited(before, [edit])
    assert refused.value.message == says == str(refused.value) and refused.value.hint


def filled(width: int) -> str:
    """Words of nine letters, this many characters in all."""
    return ("w" * 9 + " ") * (width // 10) + "v" * (width % 10)


def added(value: Any) -> list[str]:
    return edited("a: 1\n", [Put(("b",), value)]).splitlines()[1:]


def test_a_text_is_folded_where_its_line_would_be_wider_than_120_characters() -> None:
    assert added(filled(117)) == [f"b: {filled(117)}"]
    assert added(filled(118)) == ["b: >-", f"  {filled(118)}"]
    assert added(filled(119)) == ["b: >-", f"  {filled(110).strip()}", f"  {'v' * 9}"]


@pytest.mark.parametrize(
    "text", [f"two  {filled(119)}", f"{filled(119)} ", f" {filled(119)}", f"a\t{filled(119)}", f"a\n{filled(119)}"]
)
def test_a_text_that_folding_would_change_stays_on_one_line(text: str) -> None:
    (line,) = added(text)
    assert line.startswith('b: "' if text[0] == " " or text[-1] == " " or not text.isprintable() else "b: two  ")


def test_an_entry_of_a_list_is_broken_between_its_fields_where_it_is_wider_than_120_characters() -> None:
    def entry(width: int) -> list[str]:
        return added(["two words", {"k": "w" * width, "l": 1, "m": 2}])[2:]

    whole = f"  - {{k: {'w' * 99}, l: 1, m: 2}}"
    assert len(whole) == 120
    assert entry(99) == [whole]
    assert entry(100) == [f"  - {{k: {'w' * 100}, l: 1,", "     m: 2}"]
    assert entry(105) == [f"  - {{k: {'w' * 105}, l: 1,", "     m: 2}"]
    assert len(entry(105)[0]) == 120
    assert entry(106) == [f"  - {{k: {'w' * 106},", "     l: 1, m: 2}"]


def test_short_mappings_share_a_line_until_their_list_is_wider_than_120_characters() -> None:
    for width, lines in ((105, 1), (106, 3)):
        found = added([{"k": "w" * width}, {"m": 1}])
        assert len(found) == lines
    assert len(added(["w" * 60, "v" * 60])) == 1


def test_a_mapping_takes_a_line_for_each_field_where_two_lines_would_not_hold_it() -> None:
    for width, lines in ((227, 1), (228, 4)):
        found = added({"k": "w" * width, "l": 1})
        assert len(found) == lines
    assert found == ["b:", "  k: >-", f"    {'w' * 228}", "  l: 1"]
    deep = added({"k": {"m": "w" * 240, "n": ["one word"]}, "l": 1})
    assert deep == ["b:", "  k:", "    m: >-", f"      {'w' * 240}", "    n:", "      - one word", "  l: 1"]


def test_what_is_added_to_a_list_in_brackets_comes_last() -> None:
    assert edited("a: [u, v]\n", [Put(("a", 2), "w")]) == "a: [u, v, w]\n"
    assert edited("a: {u: 1, v: 2}\n", [Put(("a", "w"), 3)]) == "a: {u: 1, v: 2, w: 3}\n"


@pytest.mark.parametrize(("length", "folded"), [(110, False), (111, True)])
def test_a_sentence_in_a_new_entry_is_folded_where_its_line_is_wider_than_an_editor_shows(
    length: int, folded: bool
) -> None:
    """Its field begins the line with ten characters; a line has 120."""
    sentence = ("ab " * 60)[: length - 1] + "z"
    after = edited("a:\n  - x: 1\n", [Insert(("a",), 1, {"note": sentence})])
    assert after.startswith("a:\n  - x: 1\n\n  - note: ")
    assert ("note: >-" in after) is folded and max(map(len, after.splitlines())) <= 120
