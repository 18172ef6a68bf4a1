"""``field=value`` as a coach types it: the field it names, what the value means, and how a slip is told."""

from __future__ import annotations

from typing import Any

import pytest

from planner.domain.findings import UserError
from planner.files.edit_fields import annotation_at, field_of, is_required, read_assignments, words_allowed
from planner.files.tree import Path


@pytest.mark.parametrize(
    ("word", "path", "value"),
    [
        ("level=advanced", ("level",), "advanced"),
        ("level = advanced ", ("level",), "advanced"),
        ("harder=", ("harder",), None),
        ("name=12", ("name",), "12"),
        ("dose.of=back-squat", ("dose", "of"), "back-squat"),
        # Numbers, yes and no: as in a file. A quantity is kept as it is written.
        ("stress.patellar-knee=2", ("stress", "patellar-knee"), 2),
        ("jump.effort_percent=80", ("jump", "effort_percent"), 80),
        ("jump.rebound=true", ("jump", "rebound"), True),
        ("jump.rebound=yes", ("jump", "rebound"), "yes"),
        ("dose.rest=75 s", ("dose", "rest"), "75 s"),
        ("dose.set_time=012", ("dose", "set_time"), "012"),
        ("jump.drop=40", ("jump", "drop"), "40"),
        ("runway=20 m", ("runway",), "20 m"),
        # Words are parted by commas; a sentence may hold one.
        ("equipment=barbell, rack,", ("equipment",), ["barbell", "rack"]),
        ("equipment=[barbell, rack]", ("equipment",), ["barbell", "rack"]),
        ("patterns=squat", ("patterns",), ["squat"]),
        ("cues=Down, then up", ("cues",), ["Down, then up"]),
        ("cautions=Not on a sore knee, ever", ("cautions",), ["Not on a sore knee, ever"]),
        ("cues.2=Down, then up", ("cues", 1), "Down, then up"),
        ("requires=back-squat >= 1.2 body mass", ("requires",), ["back-squat >= 1.2 body mass"]),
        # A mapping needs no braces.
        ("jump=direction: vertical, rebound: true", ("jump",), {"direction": "vertical", "rebound": True}),
        ("jump={direction: vertical}", ("jump",), {"direction": "vertical"}),
        ("qualities=maximal-strength: 3", ("qualities",), {"maximal-strength": 3}),
    ],
)
def test_the_field_and_the_value_that_are_meant(word: str, path: Path, value: Any) -> None:
    (found,) = read_assignments([word])
    assert (found.path, found.value, type(found.value)) == (path, value, type(value))
    assert found.written == (word,) and found.drops == (value is None)


@pytest.mark.parametrize(
    ("words", "value", "written"),
    [
        (["cues=One", "cues=Two, three"], ["One", "Two, three"], 2),
        (["equipment=rack", "equipment=box, mat"], ["rack", "box", "mat"], 2),
        (["level=", "level=novice"], "novice", 1),
        (["level=novice", "level="], None, 1),
    ],
)
def test_what_is_given_again(words: list[str], value: Any, written: int) -> None:
    (found,) = read_assignments(words)
    assert (found.value, len(found.written)) == (value, written)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["level"], [("no-value", "'level' is not field=value")]),
        ([" =x"], [("no-value", "' =x' is not field=value")]),
        (["levle=x"], [("unknown-field", "'levle' is not a field of a movement; did you mean 'level'?")]),
        (["zzz=x"], [("unknown-field", "'zzz' is not a field of a movement; use one of: id, name, also,")]),
        (["tier=huge"], [("unknown-field", "'tier' is not a field of a movement; write jump.tier=")]),
        (["dose.rst=75 s"], [("unknown-field", "'rst' is not a field of dose; did you mean 'rest'?")]),
        (["stress.knee=1"], [("unknown-field", "'knee' is not one of the words allowed of stress; did you mean")]),
        (["cues.0=x"], [("unknown-field", "'0' is not an entry of cues; entries of a list count from 1: cues.1=")]),
        (["cues.1.x=3"], [("unknown-field", "'x' is not an entry of cues.1; entries")]),
        (["level.x=1"], [("unknown-field", "'x' is not an entry of level; entries")]),
        (["jump.effort_percent=012"], [("odd-number", "012 starts with a zero; write 12")]),
        (["jump={direction"], [("yaml-syntax", "'{direction' cannot be read: a bracket is not closed")]),
        (["qualities={a: 012}"], [("yaml-syntax", "'{a: 012}' cannot be read: 012 starts with a zero; check the")]),
        (["level=a", "level=b"], [("twice", "'level' is given twice; give it once")]),
        (["cues.1=a", "cues.1=b"], [("twice", "'cues.1' is given twice")]),
        (["zzz=1", "level"], [("unknown-field", "'zzz'"), ("no-value", "'level'")]),
    ],
)
def test_a_slip_is_told_and_all_of_them_at_once(words: list[str], told: list[tuple[str, str]]) -> None:
    with pytest.raises(UserError) as refused:
        read_assignments(words)
    found = [(one.code, f"{one.message}; {one.hint}") for one in refused.value.findings]
    assert [code for code, _ in found] == [code for code, _ in told]
    assert all(says.startswith(start) for (_, says), (_, start) in zip(found, told, strict=True)), found


@pytest.mark.parametrize(
    ("name", "words", "required", "says"),
    [
        ("level", ["novice", "intermediate", "advanced"], True, "lowest level"),
        ("legs", ["both", "one", "alternate"], True, "Both at once"),
        ("dose.load", ["percent", "reserve", "none"], False, "percent of a reference"),
        ("dose.rest", [], True, "Rest after a set"),
        ("jump.tier", ["low", "medium", "high"], True, "How hard"),
        ("equipment", [], False, "What it needs"),
        ("harder", [], False, "next harder"),
    ],
)
def test_what_a_coach_is_asked_of_a_field(name: str, words: list[str], required: bool, says: str) -> None:
    field = field_of(name)
    assert field is not None and says in str(field.description)
    assert (words_allowed(annotation_at(name)), is_required(name)) == (words, required)


def test_the_words_of_a_table_and_of_a_list_are_those_of_its_keys_and_entries() -> None:
    assert "patellar-knee" in words_allowed(annotation_at("stress"))
    assert "squat" in words_allowed(annotation_at("patterns"))
    assert field_of("stress.patellar-knee") is None and not is_required("stress.patellar-knee")
    with pytest.raises(UserError):
        field_of("strss.patellar-knee")
