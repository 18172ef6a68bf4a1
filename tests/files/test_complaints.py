"""A wrong value in an athlete's file: the whole sentence and what to do, at the character where it is."""

from __future__ import annotations

import pytest

from files.snippets import changed, findings_of
from planner.files.complaints import describe
from planner.files.load import load_bytes

MASS = "write a number with its unit, such as 71.4 kg"
LINES = "write 'field: value' lines, indented alike"
LIST = "start each entry on its own line with '- ', or write [first, second]"
BOUND = "check the number and its unit"
LANDING = "landing: h"
KIND = "  - kind: touch\n    date: 2025-03-01"

# old, new, code, where the finding points (the first place of this text in the new line), what it says, what to do
CASES = [
    ("71.4 kg", "kg", "quantity", "kg", "body_mass: 'kg' is not a mass", MASS),
    ("71.4 kg", '""', "quantity", '""', "body_mass: is empty", MASS),
    ("71.4 kg", "[71 kg]", "quantity", "[71", "body_mass: a list is not a mass", MASS),
    ("71.4 kg", "{a: 1}", "quantity", "{a", "body_mass: a table is not a mass", MASS),
    ("71.4 kg", "true", "quantity", "true", "body_mass: 'true' is not a mass", MASS),
    ("71.4 kg", "~", "no-value", "~", "body_mass: there is no value", "write one, or delete the line"),
    (
        "name: Nora Weiss",
        "name: {a: 1}",
        "not-text",
        "{a",
        "name: expected text, found a table",
        "write one line of text",
    ),
    ("name: Nora Weiss", "name: 12", "not-text", "12", "name: '12' is not text", 'put it in quotes: "12"'),
    (
        "name: Nora Weiss",
        f"name: {'x' * 121}",
        "too-long",
        "x",
        "name: the text is longer than 120 characters",
        "shorten it",
    ),
    (
        "minutes: 60",
        "minutes: 241",
        "out-of-range",
        "241",
        "minutes: '241' is more than 240, the most allowed here",
        "check the number",
    ),
    (
        "minutes: 60",
        "minutes: 14",
        "out-of-range",
        "14",
        "minutes: '14' is less than 15, the least allowed here",
        "check the number",
    ),
    (
        "minutes: 60",
        "minutes: '+60'",
        "not-a-whole-number",
        "'+60",
        "minutes: '+60' is in quotes",
        "write +60 without quotes",
    ),
    (
        "minutes: 60",
        "minutes: [60]",
        "not-a-whole-number",
        "[60",
        "minutes: a list is not a whole number",
        "write a number such as 3",
    ),
    (
        "minutes: 60",
        "minutes: 60.0",
        "not-a-whole-number",
        "60.0",
        "minutes: '60.0' has a decimal point",
        "write 60",
    ),
    (
        "training_age_years: 3",
        "training_age_years: '2,5'",
        "not-a-number",
        "'2,5",
        "training_age_years: '2,5' is not a number",
        "write 2.5",
    ),
    (
        "training_age_years: 3",
        "training_age_years: x",
        "not-a-number",
        "x",
        "training_age_years: 'x' is not a number",
        "write a number such as 0.5",
    ),
    (
        "training_age_years: 3",
        "training_age_years: [3]",
        "not-a-number",
        "[3",
        "training_age_years: a list is not a number",
        "write a number such as 0.5",
    ),
    ("run_up: false", "run_up: N", "not-true-or-false", "N", "run_up: 'N' is not true or false", "write false"),
    ("run_up: false", "run_up: On", "not-true-or-false", "On", "run_up: 'On' is not true or false", "write true"),
    (
        "run_up: false",
        "run_up: maybe",
        "not-true-or-false",
        "maybe",
        "run_up: 'maybe' is not true or false",
        "write true or false",
    ),
    (
        "2002-03-04",
        '"2002-02-30"',
        "not-a-date",
        '"2002',
        "birth_date: the day 2002-02-30 does not exist",
        "check month and day",
    ),
    (
        "2002-03-04",
        "[2002]",
        "not-a-date",
        "[2002",
        "birth_date: a list is not a date",
        "write year-month-day, such as 2025-03-31",
    ),
    ("{steps: 0}", "[]", "no-fields", "[]", "approach: expected fields, found a list", LINES),
    ("{steps: 0}", "0", "no-fields", "0", "approach: expected fields, found '0'", "write {steps: 0}"),
    ("[2.90 m, 2.91 m]", "{a: 1}", "not-a-list", "{a", "trials: expected a list, found a table", LIST),
    ("[2.90 m, 2.91 m]", "12", "not-a-list", "12", "trials: expected a list, found '12'", LIST),
    ("[2.90 m, 2.91 m]", "[]", "too-short", "[]", "trials: needs at least 1 entry", "add some"),
    (
        "[2.90 m, 2.91 m]",
        f"[{'2.9 m, ' * 12}2.9 m]",
        "too-long",
        "[2.9",
        "trials: takes at most 12 entries",
        "delete some",
    ),
    (
        "level: intermediate",
        "level: intermediat",
        "not-a-choice",
        "intermediat",
        "level: 'intermediat' is not one of the words allowed here",
        "did you mean 'intermediate'? (allowed: novice, intermediate, advanced)",
    ),
    (
        "level: intermediate",
        "level: [novice]",
        "not-a-choice",
        "[novice",
        "level: a list is not one of the words allowed here",
        "use one of: novice, intermediate, advanced",
    ),
    (
        "71.4 kg",
        '"300 kg "',
        "out-of-range",
        '"300',
        "body_mass: '300 kg ' is more than 250 kg, the most allowed here",
        BOUND,
    ),
    (
        "5 ft 11 in",
        "3 m",
        "out-of-range",
        "3 m",
        "stature: '3 m' is more than 2.5 m, the most allowed here",
        BOUND,
    ),
    (
        "5 ft 11 in",
        "9 ft",
        "out-of-range",
        "9 ft",
        "stature: '9 ft' is more than 8.202 ft, the most allowed here",
        BOUND,
    ),
    (
        "reps: 5",
        "reps: 5, steps: 3",
        "unknown-field",
        "steps",
        "'steps' is not a field of tests, entry 2",
        "it belongs to 'approach'; check the indentation",
    ),
    (
        "reps: 5",
        "reps: 5, colour: red",
        "unknown-field",
        "colour",
        "'colour' is not a field of tests, entry 2",
        "fields it can still have: method, protocol, note, reps_in_reserve, side",
    ),
    (
        LANDING,
        f"equipment: {{items: rack}}\n{LANDING}",
        "not-a-list",
        "rack",
        "items: expected a list, found 'rack'",
        "write [rack]",
    ),
    (
        LANDING,
        f"pins: [c]\n{LANDING}",
        "no-fields",
        "c]",
        "pins, entry 1: expected fields, found 'c'",
        "write {movement: c}",
    ),
    (LANDING, f"pins: [12]\n{LANDING}", "no-fields", "12", "pins, entry 1: expected fields, found '12'", LINES),
    (
        LANDING,
        f"pins: [Bad Id]\n{LANDING}",
        "no-fields",
        "Bad",
        "pins, entry 1: expected fields, found 'Bad Id'",
        "write {movement: Bad Id}",
    ),
    (LANDING, f"allow: [x]\n{LANDING}", "no-fields", "x", "allow, entry 1: expected fields, found 'x'", LINES),
    (
        LANDING,
        f"pins: {{movement: c}}\n{LANDING}",
        "not-a-list",
        "{mov",
        "pins: expected a list, found a table",
        LIST,
    ),
    (
        KIND,
        KIND.replace("touch", "tuch"),
        "unknown-test-kind",
        "tuch",
        "tests, entry 1: 'tuch' is not a kind of test",
        "did you mean 'touch'?",
    ),
]


@pytest.mark.parametrize(("old", "new", "code", "at", "message", "hint"), CASES)
def test_a_wrong_value_is_told_whole(old: str, new: str, code: str, at: str, message: str, hint: str) -> None:
    text, line = changed(old, new)
    (found,) = findings_of(text)
    shown = text.splitlines()[line - 1]
    assert (found.code, found.message, found.hint) == (code, message, hint)
    assert (found.line, found.source_line) == (line, shown)
    assert shown[found.column - 1 :].startswith(at)


@pytest.mark.parametrize("kind", ["zzz", "~", "[a]", "12"])
def test_what_is_no_kind_of_test_at_all_is_told_with_all_kinds(kind: str) -> None:
    text, line = changed(KIND, KIND.replace("touch", kind))
    (found,) = findings_of(text)
    what = f"'{kind}'" if kind == "zzz" else "this"
    assert (found.code, found.line) == ("unknown-test-kind", line)
    assert found.message == f"tests, entry 1: {what} is not a kind of test"
    assert found.hint.startswith("use one of: touch, flight-time, ") and "force-platform" in found.hint


@pytest.mark.parametrize(("length", "shown"), [(60, "X" * 60), (61, f"{'X' * 57}...")])
def test_a_long_value_is_told_short(length: int, shown: str) -> None:
    (found,) = findings_of(changed("level: intermediate", f"level: {'X' * length}")[0])
    assert found.message == f"level: '{shown}' is not one of the words allowed here"


@pytest.mark.parametrize(
    ("value", "says"),
    [("x", "'x' is not a whole number"), (2.5, "'2.5' is not a whole number"), ([1], "this is not a whole number")],
)
def test_an_answer_that_comes_from_no_file_is_told_the_same(value: object, says: str) -> None:
    assert describe({"type": "int_type", "loc": (), "input": value}, None, "").message == says


@pytest.mark.parametrize(("written", "hint"), [("Back Squat!", ": back-squat"), ("'!'", "")])
def test_what_is_not_an_id_is_told_with_the_id_it_could_be(written: str, hint: str) -> None:
    (found,) = load_bytes(f"file: equipment/1\nequipment:\n  - {{id: {written}, name: Rack}}\n".encode(), "e").findings
    word = written.strip("'")
    assert (found.code, found.line, found.column) == ("not-an-id", 3, 10)
    assert found.message == f"id: '{word}' is not an id"
    assert found.hint == f"use small letters, digits and single hyphens{hint}"


@pytest.mark.parametrize(
    ("field", "written", "says", "hint"),
    [
        ("load_kg", "205 lb", "'205 lb' is written with its unit", "write the figure alone, in kg: 92.99"),
        ("length_m", "30 yd", "'30 yd' is written with its unit", "write the figure alone, in m: 27.43"),
        ("force_N", "12345 N", "'12345 N' is written with its unit", "write the figure alone, in N: 12340"),
        ("load_kg", "30 yd", "'30 yd' is not a number", "write a number such as 0.5"),
        ("ratio", "205 lb", "'205 lb' is not a number", "write a number such as 0.5"),
    ],
)
def test_a_figure_with_a_unit_is_told_in_the_unit_of_its_field(field: str, written: str, says: str, hint: str) -> None:
    found = describe({"type": "float_type", "loc": ("items", 0, field), "input": written}, None, "")
    assert (found.message, found.hint) == (says, hint)


def test_a_trade_name_in_the_place_of_an_id_is_told_where_ids_are_found() -> None:
    found = describe({"type": "string_pattern_mismatch", "loc": ("items", 0, "movement"), "input": "RDLs"}, None, "")
    assert found.message == "'RDLs' is not an id" and "hyphens: rdls; jumpblock library list has" in found.hint
