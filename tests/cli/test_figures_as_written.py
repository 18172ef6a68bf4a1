"""Figures as people write them: read where they leave no doubt and told on request, else refused with the forms."""

from __future__ import annotations

from pathlib import Path

import pytest

IMPERIAL = """\
file: athlete/1
name: Ana Prado
birth_date: 1998-03-02
body_mass: 157 lbs
stature: 5'9"
standing_reach: 7 ft 3
take_off: one-leg left
approach: {steps: 5}
level: intermediate
landing: holds
training: {days: [{day: mon, minutes: 60}, {day: wed, minutes: 60}, {day: fri, minutes: 60}]}
equipment: {bar: 45 lb, plates: "45, 35, 25 lb", items: [rack], runway: 40 yards}
target: {touch: 117 in, method: touch}
tests:
  - {kind: touch, date: 2025-09-01, method: chalk, take_off: one-leg left, run_up: true, trials: [113 1/2 in, 2,9 m]}
"""


@pytest.fixture
def athlete(tmp_path: Path) -> Path:
    path = tmp_path / "ana.yaml"
    path.write_text(IMPERIAL.replace("2,9 m", "'2,9 m'"), "utf-8")
    return path


def test_each_reading_is_told_on_its_line_and_only_if_asked_for(run, athlete: Path) -> None:
    told = run("check", "--verbose", athlete).out
    for line, written, read in (
        (4, "157 lbs", "157 lb"),
        (5, "5'9\"", "69 in"),
        (6, "7 ft 3", "87 in"),
        (12, "45, 35, 25 lb", "45 lb, 35 lb, 25 lb"),
        (12, "40 yards", "40 yd"),
        (15, "113 1/2 in", "113.5 in"),
        (15, "2,9 m", "2.9 m"),
    ):
        assert f":{line}:" in told and f"'{written}' is read as {read}\n" in told, written

    assert "read-as" not in run("check", athlete).out


def test_a_comma_that_may_be_a_list_or_thousands_is_refused_with_the_forms_that_work(run, tmp_path: Path) -> None:
    path = tmp_path / "ana.yaml"
    path.write_text(IMPERIAL.replace("157 lbs", "1,570 lb"), "utf-8")
    told = run("check", path)
    assert told.code == 1
    assert "'1,570 lb' may be 1570 or 1.570; write 1570 lb or 1.570 lb" in told.out
    assert "2 has no unit" in told.out  # the comma in the list of trials: two entries, none of them read as 2.9 m


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("level: intermediate\n", "add level: novice, intermediate or advanced"),
        ("take_off: one-leg left\n", "add take_off: one-leg left, one-leg right or two-leg"),
        ("landing: holds\n", "add landing: holds or not-yet"),
        ("body_mass: 157 lbs\n", "add body_mass: 71.4 kg"),
        ("birth_date: 1998-03-02\n", "add birth_date: 2001-05-17 (year-month-day)"),
        ("approach: {steps: 5}\n", "add approach: {steps: a whole number from 0 to 20}"),
    ],
)
def test_a_line_that_is_missing_says_what_it_may_hold(run, athlete: Path, line: str, says: str) -> None:
    text = athlete.read_text("utf-8")
    assert line in text
    athlete.write_text(text.replace(line, ""), "utf-8")
    told = run("check", athlete)
    assert told.code == 1 and says in told.out
