"""How a value is written: plain or in quotes, on one line or on several, up to which width."""

from __future__ import annotations

import datetime
from typing import Any

import pytest

from planner.files.dump import plain_to_yaml
from planner.files.load import read_document
from planner.files.values import to_data


def written(value: Any) -> str:
    text = plain_to_yaml({"a": value})
    document = read_document(text.encode(), "a.yaml", "")[0]
    assert document is not None
    assert to_data(document.root)[0] == {"a": value}  # it reads back as it was
    return text


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (None, "null"),
        (True, "true"),
        (False, "false"),
        (7, "7"),
        (7.5, "7.5"),
        (0.1 + 0.2, "0.30000000000000004"),
        (20.0, "20"),
        (-3.0, "-3"),
        (999999999999999.0, "999999999999999"),
        (1e15, "1000000000000000.0"),
        (1e16, "1e+16"),
        (datetime.date(2025, 3, 1), "2025-03-01"),
        ([], "[]"),
        ({}, "{}"),
        ("word", "word"),
        ("two words, one comma", "two words, one comma"),
        ("(in brackets)", "(in brackets)"),
        ("a:b", "a:b"),
        ("a: b", '"a: b"'),
        ("a:", '"a:"'),
        ("a #b", '"a #b"'),
        ("a#b", "a#b"),
        ("- a", '"- a"'),
        ("a ", '"a "'),
        ("", '""'),
        ("12", '"12"'),
        ("true", '"true"'),
        ("2025-03-01", '"2025-03-01"'),
        ("two\nlines", '"two\\nlines"'),
        ("é", "é"),
        ("bell\x7f", None),
    ],
)
def test_a_single_value(value: Any, text: str | None) -> None:
    if text is None:
        assert plain_to_yaml({"a": value}) == 'a: "bell\\u007f"\n'
    else:
        assert written(value) == f"a: {text}\n"


@pytest.mark.parametrize(
    ("value", "lines"),
    [
        ([1, "b"], ["a: [1, b]"]),
        (["a, b", "c: d", "e:f"], ['a: ["a, b", "c: d", "e:f"]']),
        ({"b": 1, "c": "d, e"}, ['a: {b: 1, c: "d, e"}']),
        ({"b": [], "c": {}}, ["a: {b: [], c: {}}"]),
        ({"b": [1]}, ["a:", "  b: [1]"]),
        ([[1], [2, 3]], ["a:", "  - [1]", "  - [2, 3]"]),
        ([[]], ["a:", "  - []"]),
        ([{"b": 1}, {"b": [1]}], ["a:", "  - {b: 1}", "  - b: [1]"]),
        ([{"b": [1], "c": {"d": [2]}}], ["a:", "  - b: [1]", "    c:", "      d: [2]"]),
        ([[[1]]], ["a:", "  - - [1]"]),
    ],
)
def test_what_is_flat_and_short_shares_a_line(value: Any, lines: list[str]) -> None:
    assert written(value).splitlines() == lines


@pytest.mark.parametrize("flat", [["x", "y"], {"k": "x", "l": "y"}])
def test_a_line_is_at_most_113_characters_wide(flat: Any) -> None:
    """110, the space after the colon and the two brackets."""
    room = 113 - len(written(flat).rstrip())
    for more, whole in ((room, True), (room + 1, False)):
        longer = [*flat[:1], "y" * (more + 1)] if isinstance(flat, list) else {**flat, "l": "y" * (more + 1)}
        lines = written(longer).splitlines()
        assert (len(lines) == 1) == whole
        assert not whole or len(lines[0]) == 113


def test_an_entry_of_a_list_has_the_same_width() -> None:
    for more, count in ((97, 2), (98, 3)):
        lines = written([{"k": "x", "l": "y" * more}]).splitlines()
        assert len(lines) == count
    assert len(written([{"k": "x", "l": "y" * 97}]).splitlines()[1]) == 112
    assert written("y" * 300) == f"a: {'y' * 300}\n"


def test_what_no_file_can_hold_is_a_bug_of_ours() -> None:
    with pytest.raises(TypeError, match="no values of type object"):
        plain_to_yaml({"a": object()})
