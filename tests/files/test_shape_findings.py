"""The shape of a file: unknown, missing and wrong values, each on its line, in a coach's words."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from files.snippets import ATHLETE, changed, findings_of, places
from planner.files.load import load_bytes

# what is wrong, old text, new text, code, and words that the finding must hold
CASES = [
    ("no unit", "71.4 kg", "71.4", "quantity", "71.4 has no unit; write for example 71.4 kg"),
    ("no unit, in quotes", "71.4 kg", '"71.4"', "quantity", "71.4 has no unit"),
    ("unknown unit", "71.4 kg", "71.4 stone", "quantity", "'stone' is not a unit of mass; use one of kg, g, lb"),
    ("unit of another kind", "71.4 kg", "71.4 cm", "quantity", "'cm' is a unit of length, not of mass"),
    ("thousands or decimals", "71.4 kg", "71,400 kg", "quantity", "write 71400 kg or 71.400 kg"),
    ("not finite", "71.4 kg", "inf kg", "quantity", "'inf kg' is not a mass"),
    ("negative mass", "71.4 kg", "-71.4 kg", "out-of-range", "'-71.4 kg' is less than 25 kg, the least allowed here"),
    (
        "pounds read as kilograms",
        "71.4 kg",
        "300 kg",
        "out-of-range",
        "'300 kg' is more than 250 kg, the most allowed here",
    ),
    ("bound in the written unit", "71.4 kg", "600 lb", "out-of-range", "'600 lb' is more than 551.2 lb"),
    ("giant", "5 ft 11 in", "8 ft 6 in", "out-of-range", "is more than 98.43 in"),
    ("cm for m", "5 ft 11 in", "18 cm", "out-of-range", "'18 cm' is less than 120 cm"),
    ("no value", "body_mass: 71.4 kg", "body_mass:", "no-value", "body_mass: there is no value"),
    ("unknown field", "body_mass: 71.4", "body_mas: 71.4", "unknown-field", "did you mean 'body_mass'?"),
    (
        "unknown field, nothing like it",
        "level: inter",
        "colour: red\nlevel: inter",
        "unknown-field",
        "not a field of this file",
    ),
    (
        "field of another mapping",
        "level: inter",
        "trials: 3\nlevel: inter",
        "unknown-field",
        "it belongs to 'tests'; check the indentation",
    ),
    ("day that does not exist", "day: mon", "day: monday", "not-a-choice", "did you mean 'mon'?"),
    ("day that does not exist", "day: tue", "day: tues", "not-a-choice", "did you mean 'tue'?"),
    ("date that does not exist", "2002-03-04", "2002-02-30", "not-a-date", "the day 2002-02-30 does not exist"),
    ("date the other way round", "2002-03-04", "04.03.2002", "not-a-date", "write year-month-day, such as 2025-03-31"),
    ("date at the calendar's end", "2002-03-04", "9999-12-03", "out-of-range", "is more than 2200-12-31, the most"),
    ("date before any athlete", "2002-03-04", "0001-01-01", "out-of-range", "'0001-01-01' is less than 1900-01-01"),
    ("date with a time", "2002-03-04", "2002-03-04T10:00:00", "not-a-date", "is not a date"),
    ("word for yes", "run_up: false", "run_up: yes", "not-true-or-false", "'yes' is not true or false; write true"),
    ("word for no", "run_up: false", "run_up: off", "not-true-or-false", "write false"),
    ("number for text", "name: Nora Weiss", "name: 12", "not-text", "'12' is not text; put it in quotes"),
    ("list for text", "name: Nora Weiss", "name: [Nora]", "not-text", "expected text, found a list"),
    (
        "word for a number",
        "training_age_years: 3",
        "training_age_years: three",
        "not-a-number",
        "'three' is not a number",
    ),
    ("comma for a point", "training_age_years: 3", "training_age_years: 2,5", "not-a-number", "write 2.5"),
    ("broken whole number", "minutes: 60", "minutes: 60.5", "not-a-whole-number", "'60.5' is not a whole number"),
    ("decimal point too many", "minutes: 60", "minutes: 60.0", "not-a-whole-number", "write 60"),
    ("whole number in quotes", "minutes: 60", 'minutes: "60"', "not-a-whole-number", "write 60 without quotes"),
    ("negative minutes", "minutes: 60", "minutes: -60", "out-of-range", "'-60' is less than 15"),
    (
        "text for a list",
        "[2.90 m, 2.91 m]",
        "2.90 m",
        "not-a-list",
        "expected a list, found '2.90 m'; write [2.90 m]",
    ),
    ("text for a table", "{steps: 0}", "none", "no-fields", "expected fields, found 'none'"),
    (
        "a word for its one field",
        "landing: h",
        "pins: [back-squat]\nlanding: h",
        "no-fields",
        "expected fields, found 'back-squat'; write {movement: back-squat}",
    ),
    (
        "a word that is not its one field",
        "landing: h",
        "matches: [monday]\nlanding: h",
        "no-fields",
        "write 'field: value' lines",
    ),
    ("empty list", "[2.90 m, 2.91 m]", "[]", "too-short", "needs at least 1 entry"),
    ("empty text", "name: Nora Weiss", 'name: ""', "too-short", "there is no text"),
    ("too long a text", "name: Nora Weiss", f"name: {'x' * 200}", "too-long", "longer than 120 characters"),
    (
        "unknown kind of test",
        "kind: touch",
        "kind: tuch",
        "unknown-test-kind",
        "'tuch' is not a kind of test; did you mean 'touch'?",
    ),
    (
        "unknown take-off",
        "take_off: two-leg\nappr",
        "take_off: two_leg\nappr",
        "not-a-choice",
        "did you mean 'two-leg'?",
    ),
    (
        "trial out of bounds",
        "2.91 m]",
        "2.91 m, 29.1 m]",
        "out-of-range",
        "trials, entry 3: '29.1 m' is more than 4.5 m",
    ),
    ("trial without a unit", "2.91 m]", "2.91]", "quantity", "trials, entry 2: 2.91 has no unit"),
]


@pytest.mark.parametrize(("old", "new", "code", "words"), [case[1:] for case in CASES], ids=[case[0] for case in CASES])
def test_wrong_value_is_told_on_its_line(old: str, new: str, code: str, words: str) -> None:
    text, line = changed(old, new)
    (finding,) = findings_of(text)
    assert (finding.code, finding.line) == (code, line)
    assert words in f"{finding.message}; {finding.hint}"
    assert finding.source_line == text.splitlines()[line - 1]


def test_column_points_at_the_value_or_the_unknown_field() -> None:
    text, _ = changed("    - {day: mon, minutes: 60}", "    - {day: mon, minutes: 6}")
    (finding,) = findings_of(text)
    assert text.splitlines()[finding.line - 1][finding.column - 1 :].startswith("6}")
    text, _ = changed("    - {day: mon, minutes: 60}", "    - {day: mon, minutes: 60, own_work: 5}")
    (finding,) = findings_of(text)
    assert text.splitlines()[finding.line - 1][finding.column - 1 :].startswith("own_work: 5")
    assert "'own_work_minutes'" in finding.hint


def test_missing_field_points_at_its_mapping() -> None:
    text, line = changed("    take_off: two-leg\n", "")
    (finding,) = findings_of(text)
    assert (finding.code, finding.line) == ("missing-field", line - 2)  # where the entry of tests begins
    assert "'take_off' is missing from tests, entry 1" in finding.message
    text, _ = changed("landing: holds\n", "")
    (finding,) = findings_of(text)
    assert (finding.code, finding.line) == ("missing-field", 1)


def test_test_without_a_kind() -> None:
    text, line = changed("  - kind: touch\n    date: 2025-03-01", "  - date: 2025-03-01")
    (finding,) = findings_of(text)
    assert (finding.code, finding.line) == ("missing-field", line)
    assert "'kind' is missing" in finding.message


@pytest.mark.parametrize(
    ("entry", "code"),
    [("", "no-value"), (" sprint", "no-fields"), (" 12", "no-fields"), (" [a, b]", "no-fields")],
)
def test_an_entry_that_is_no_test_is_a_finding_on_its_line(entry: str, code: str) -> None:
    text, line = changed("  - kind: touch\n    date: 2025-03-01", f"  -{entry}\n  - kind: touch\n    date: 2025-03-01")
    (finding,) = findings_of(text)
    assert (finding.code, finding.line) == (code, line)


def test_a_misspelt_field_is_one_finding_not_two() -> None:
    text, line = changed("landing: holds", "landig: holds")
    assert places(text) == [("unknown-field", line)]


def test_all_findings_come_at_once_sorted_by_line() -> None:
    text = ATHLETE
    for old, new in (("71.4 kg", "71.4"), ("day: mon", "day: mo"), ("2.91 m]", "2.91]"), ("name: N", "nme: N")):
        text, _ = changed(old, new, text)
    found = places(text)
    assert [code for code, _ in found] == ["unknown-field", "quantity", "not-a-choice", "quantity"]
    assert [line for _, line in found] == sorted(line for _, line in found)


def test_shape_errors_keep_sense_from_running() -> None:
    text, _ = changed("touch: 3.00 m", "touch: 2.00 m")
    assert [code for code, _ in places(text)] == ["touch-below-reach"]
    text, line = changed("minutes: 60", "minutes: many", text)
    assert places(text) == [("not-a-whole-number", line)]


def test_a_file_of_nothing_but_errors_is_cut_short_and_says_so() -> None:
    found = findings_of(ATHLETE + "".join(f"field{n}: 1\n" for n in range(2000)))
    assert [finding.code for finding in found].count("unknown-field") == 100
    assert [finding.message for finding in found if finding.level == "note"] == [
        "1900 more findings in this file are not shown"
    ]


@pytest.mark.parametrize("date", ["2002-03-04", '"2002-03-04"', "'2002-03-04'"])
def test_a_date_may_stand_in_quotes(date: str) -> None:
    text, _ = changed("2002-03-04", date)
    loaded = load_bytes(text.encode(), "nora.yaml")
    assert loaded.value is not None
    assert str(loaded.value.birth_date) == "2002-03-04"  # type: ignore[attr-defined]


def test_a_field_named_like_the_kind_of_its_mapping() -> None:
    """A jump's fields stand under 'jump', and its kind is 'jump' too: the way to the line must not mix them up."""
    text = """\
file: movements/1
family: hops
movements:
  - id: hop
    name: Hop
    kind: jump
    part: jump
    qualities: {speed-exposure: 1}
    stress: {}
    legs: both
    level: novice
    jump: {direction: vertical, approach: standing,
      tier: lowest}
    dose: {scheme: hops, set_time: 20 s, rest: 60 s}
    cues: [Land softly]
    source: common practice, no source
"""
    (finding,) = load_bytes(text.encode(), "hops.yaml").findings
    assert (finding.code, finding.line, finding.column) == ("not-a-choice", 13, 13)


def test_a_wrong_key_of_a_table_points_at_the_key() -> None:
    text = "file: movements/1\nfamily: hops\nmovements:\n  - id: hop\n    stress: {achiles-ankle: 1}\n"
    found = [f for f in load_bytes(text.encode(), "hops.yaml").findings if f.code == "not-a-choice"]
    assert [(f.line, f.column) for f in found] == [(5, 14)]
    assert "'achilles-ankle'" in found[0].hint


def test_no_word_of_the_trade_of_programmers_reaches_the_coach() -> None:
    jargon = re.compile(r"\b(dict|str|int|float|bool|None|tuple|validator|[Ii]nput should|pydantic|literal|instance)\b")
    for case in CASES:
        for finding in findings_of(changed(case[1], case[2])[0]):
            assert not jargon.search(f"{finding.message} {finding.hint}"), finding


def test_a_number_out_of_a_few_is_told_with_all_of_them():
    text = (Path(__file__).parents[2] / "templates/limits/standard.yaml").read_text("utf-8")
    edited = text.replace("contacts_per_dose: 10", "contacts_per_dose: 7")
    (finding,) = load_bytes(edited.encode(), "t.yaml", ("limits/1",)).findings
    assert (finding.code, finding.line) == ("not-a-choice", text[: text.index("contacts_per_dose")].count("\n") + 1)
    assert finding.hint.startswith("use one of: 1, 2, 3") and "10, 12" in finding.hint


def test_a_growth_ratio_finer_than_rows_can_count_is_told_on_its_line():
    text = (Path(__file__).parents[2] / "templates/limits/standard.yaml").read_text("utf-8")
    edited = text.replace("joint_stress: {ratio: 1.25,", "joint_stress: {ratio: 1.23456,", 1)
    (finding,) = load_bytes(edited.encode(), "t.yaml", ("limits/1",)).findings
    assert finding.line == text[: text.index("joint_stress: {ratio")].count("\n") + 1
    assert "more than three decimal places" in finding.message


def test_a_field_misspelt_twice_is_told_twice_and_a_missing_one_beside_it_too() -> None:
    text = changed("landing: holds", "landig: holds\nlandng: holds")[0]
    text = changed("level: intermediate\n", "", text)[0]
    found = [(one.code, one.message, one.hint) for one in findings_of(text)]
    assert sorted(found) == [
        ("missing-field", "'level' is missing", "add level: novice, intermediate or advanced"),
        ("unknown-field", "'landig' is not a field of this file", "did you mean 'landing'?"),
        ("unknown-field", "'landng' is not a field of this file", "did you mean 'landing'?"),
    ]


@pytest.mark.parametrize("count", [100, 101])
def test_a_hundred_findings_are_shown_and_more_are_counted(count: int) -> None:
    found = findings_of(ATHLETE + "".join(f"zz{number}: 1\n" for number in range(count)))
    notes = [one.message for one in found if one.level == "note"]
    assert notes == (["1 more finding in this file is not shown"] if count == 101 else [])
    assert len(found) - len(notes) == 100
    odd = findings_of(ATHLETE + "zz: [" + "012, " * count + "1]\n")
    assert [one.code for one in odd].count("odd-number") == 100
