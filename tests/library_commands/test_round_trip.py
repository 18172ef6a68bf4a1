"""Any edit through the tool leaves every other byte as it was: drawn edits on shipped and on oddly written files."""

from __future__ import annotations

import random
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from ruamel.yaml import YAML

from planner.files.edit import edited
from planner.files.edit_fields import ORDER
from planner.files.edit_steps import CannotEdit, FileEdit, Insert, Put, Remove
from planner.files.load import read_document
from planner.files.values import to_data

ROOT = Path(__file__).parents[2]
LIBRARY = sorted(
    path for path in (ROOT / "exercise_library").glob("*.yaml") if path.stem not in ("equipment", "review")
)
DRAWN = settings(max_examples=80, deadline=None, derandomize=True)

ODD = """\
# before everything

file: movements/1   # the kind
family: 'odd'
movements:

- id: one          # a dash in column 0
  name: "In: quotes"
  qualities:
    maximal-strength: 3     # tagged by feel
    # and this one by the force platform
    calf-ankle: 1

  equipment:
  - barbell   # the light one
  - rack
  dose: { scheme: main-lift,   load: none, set_time: 45 s , rest: 120 s}
  cues: ['Don''t bounce', "Say \\"up\\"", plain words]
  source: |
    Two lines
    of text

  # about two
-   id: two
    name: Plain
    cues:
        - far in
        - further
    note:
    source: >-
      folded
      text
# the end"""
# What may be asked of an entry: the field and a value.
WORDS = st.sampled_from(
    [
        "plain",
        "Don't",
        'say "now"',
        "a: b",
        "# no comment",
        "- dash",
        "12",
        "true",
        "null",
        "",
        "é → ½",
        "x" * 150,
        "w " * 80 + "w",
    ]
)
VALUES = st.one_of(
    WORDS,
    st.integers(0, 999),
    st.booleans(),
    st.lists(WORDS, min_size=1, max_size=4),
    st.dictionaries(st.sampled_from(["low-back", "hamstring", "calf-ankle"]), st.integers(0, 3), min_size=1),
)
FIELDS = st.sampled_from(
    ["name", "level", "qualities", "equipment", "dose", "cues", "cautions", "source", "harder", "note"]
)


def reader(text: str) -> Any:
    """An independent reading of the file."""
    return YAML(typ="safe", pure=True).load(text)


def data_of(text: str) -> Any:
    document = read_document(text.encode(), "odd.yaml", "")[0]
    assert document is not None
    return to_data(document.root)[0]


def entry_lines(text: str) -> list[int]:
    """The first line (from 0) of every movement, by ruamel's own marks."""
    node = YAML(typ="rt", pure=True).load(text)["movements"]
    return [node.lc.item(index)[0] for index in range(len(node))]


def outside(text: str, entry: int) -> tuple[list[str], list[str]]:
    """The lines before the entry and those from the next one on, line ends kept."""
    lines, starts = text.splitlines(keepends=True), [*entry_lines(text), len(text.splitlines())]
    return lines[: starts[entry]], lines[starts[entry + 1] :]


def holds(text: str, entry: int, edit: FileEdit) -> None:
    """The edit is refused, or only the asked-for field differs, and no line of another entry."""
    try:
        changed = edited(text, [edit])
    except CannotEdit:
        return
    wanted = reader(text)
    holder = wanted["movements"][entry]
    if isinstance(edit, Remove):
        del holder[edit.path[-1]]
    elif isinstance(edit, Put):
        holder[edit.path[-1]] = edit.value
    assert reader(changed) == wanted
    (before, after), (before_now, after_now) = outside(text, entry), outside(changed, entry)
    assert before_now == before
    assert after_now == after
    for comment in _comments(text):
        assert comment in changed, "a comment went lost"


def _comments(text: str) -> list[str]:
    return [
        line[line.index("# ") :].rstrip()
        for line in text.splitlines()
        if "# " in line and "'" not in line.split("# ")[0]
    ]


@DRAWN
@given(st.integers(0, 1), FIELDS, VALUES, st.sampled_from(["\n", "\r\n"]))
def test_any_value_for_any_field_of_an_odd_file(entry: int, field: str, value: Any, line_end: str) -> None:
    text = ODD.replace("\n", line_end)
    holds(text, entry, Put(("movements", entry, field), value, ORDER))


@DRAWN
@given(st.integers(0, 1), FIELDS)
def test_any_field_taken_out_of_an_odd_file(entry: int, field: str) -> None:
    if field in data_of(ODD)["movements"][entry]:
        holds(ODD, entry, Remove(("movements", entry, field)))


@pytest.mark.parametrize("path", LIBRARY[::5], ids=[path.stem for path in LIBRARY[::5]])
def test_drawn_edits_of_some_shipped_files(path: Path) -> None:
    drawn_edits(path)


@pytest.mark.long
@pytest.mark.parametrize("path", LIBRARY, ids=[path.stem for path in LIBRARY])
def test_drawn_edits_of_every_shipped_file(path: Path) -> None:
    drawn_edits(path)


def drawn_edits(path: Path) -> None:
    text, dice = path.read_bytes().decode("utf-8"), random.Random(path.name)
    count = len(data_of(text)["movements"])
    entry = dice.randrange(count)
    for field, value in [
        ("level", "advanced"),
        ("stress", {"low-back": 3, "hamstring": 1}),
        ("cautions", ["Mind the floor: it is wet", "Stop at pain"]),
        (dice.choice(["name", "source"]), dice.choice(["Short", "a: b", "long words " * 20 + "end"])),
    ]:
        holds(text, entry, Put(("movements", entry, field), value, ORDER))
    holds(text, entry, Remove(("movements", entry, dice.choice(["source", "stress", "cues", "legs"]))))


def test_only_the_entry_that_differs_is_touched_in_a_list() -> None:
    changed = edited(ODD, [Put(("movements", 0, "equipment"), ["barbell", "box"])])
    different = [(a, b) for a, b in zip(ODD.splitlines(), changed.splitlines(), strict=True) if a != b]
    assert different == [("  - rack", "  - box")]


def test_quotes_stay_the_quotes_they_were() -> None:
    changed = edited(ODD, [Put(("family",), "it's odd"), Put(("movements", 0, "name"), "Now without")])
    assert "family: 'it''s odd'\n" in changed
    assert '  name: "Now without"\n' in changed


def test_a_new_entry_takes_the_columns_and_the_distance_of_its_neighbours() -> None:
    for text in (ODD, *(path.read_text("utf-8") for path in LIBRARY[:6])):
        count = len(data_of(text)["movements"])
        new = {"id": "fresh", "cues": ["One: two", "three"]}
        changed = edited(text, [Insert(("movements",), count, new)])
        assert reader(changed)["movements"] == [*reader(text)["movements"], new]
        kept = changed.splitlines()
        assert all(line in kept for line in text.splitlines())


def test_a_comment_about_a_field_taken_out_stays() -> None:
    changed = edited(ODD, [Remove(("movements", 0, "qualities"))])
    assert "# tagged by feel" in changed and "# and this one by the force platform" in changed
    assert "qualities" not in changed


def test_a_value_with_a_comment_inside_is_not_replaced_whole() -> None:
    with pytest.raises(CannotEdit):
        edited(ODD, [Put(("movements", 0, "qualities"), "none")])


def test_one_and_true_and_one_point_zero_are_three_things() -> None:
    for value in (1, True, 1.0, "1", "true"):
        changed = edited("a: x\nb: 2\n", [Put(("a",), value)])
        found = data_of(changed)["a"]
        assert (type(found), found) == (type(value), value)
