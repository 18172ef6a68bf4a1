"""Silences that would change the plan: each is told once, with what would change it. Nothing is searched for here."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from planner.jobs import plan_block
from planner.solve.extract import extract_weeks
from planner.solve.found_plan import BudgetSpent
from planner.solve.make_block import _days_without
from tests.cli.conftest import CHECKOUT, athlete, change
from tests.solve.demos import solved

ADULT = CHECKOUT / "templates/athletes/adult-one-leg-jumper.yaml"


@pytest.fixture
def no_search(monkeypatch: pytest.MonkeyPatch) -> None:
    """The search ends at once: what the files lack is told before it."""

    def spent(*_: object) -> None:
        raise BudgetSpent

    monkeypatch.setattr(plan_block, "solve", spent)
    monkeypatch.setattr(plan_block, "solve_near", spent)
    monkeypatch.setattr(plan_block, "minutes_that_do", lambda *_: None)


@pytest.fixture
def adult(tmp_path: Path) -> Path:
    return Path(shutil.copy(ADULT, tmp_path / "adult.yaml"))


def told_once(said: str, code: str, hint: str) -> None:
    lines = [line for line in said.splitlines() if f"[{code}]" in line]
    assert len(lines) == 1, said
    assert hint in lines[0]


@pytest.mark.usefixtures("no_search")
def test_a_closed_gate(run, adult) -> None:
    text = adult.read_text("utf-8")
    at = text.index("load:", text.index("movement: back-squat"))
    adult.write_text(f"{text[:at]}load: 80 kg{text[text.index(chr(10), at) :]}", "utf-8")
    said = run("plan", adult).err
    told_once(said, "closed-jumps", "a squat of 122 kg opens them")
    told_once(said, "closed-jumps", "allow: [{rule: high-tier-gate, reason: why, date: ")


@pytest.mark.usefixtures("no_search")
def test_a_dropped_test(run, adult) -> None:
    change(adult, "{touch_down: 112, take_off: 160}", "{touch_down: 172, take_off: 160}")
    told_once(run("plan", adult).err, "video-contact", "touch_down < take_off < landing")
    told = run("gap", adult)
    said = " ".join((told.out + told.err).split())
    assert said.count("the trial is not used") == 1 and "touch_down < take_off < landing" in said


@pytest.mark.usefixtures("no_search")
@pytest.mark.parametrize("command", ["plan", "check"])
def test_a_file_of_the_library_that_is_not_read(run, tmp_path, adult, command) -> None:
    library = tmp_path / "exercise_library"
    shutil.copytree(CHECKOUT / "exercise_library", library)
    shutil.copy(library / "calf-holds.yaml", library / "mine.txt")
    done = run(command, adult if command == "plan" else library)
    told_once(done.out + done.err, "not-read", "rename it to mine.yaml")


@pytest.mark.usefixtures("no_search")
def test_a_day_of_the_block_in_use_that_is_no_training_day_now(run, coach) -> None:
    days = re.compile(r"^( *)- \{day: wed,", re.MULTILINE)
    file = athlete(coach)
    text, count = days.subn(r"\1- {day: thu,", file.read_text("utf-8"), count=1)
    assert count == 1
    file.write_text(text, "utf-8")
    told_once(run("plan", file, "--near", coach / "block.yaml").err, "other-days", "their work is planned anew")


def test_a_training_day_without_a_session_is_one_line_of_the_block() -> None:
    demo = solved("adult")
    weeks = extract_weeks(demo.solution.problem, demo.solution.values)
    assert _days_without(demo.solution.problem, weeks) == []
    first = weeks[1]
    fewer = first.model_copy(update={"sessions": first.sessions[1:]})
    day = f"{first.sessions[0].date:%A}"
    said = _days_without(demo.solution.problem, [weeks[0], fewer, *weeks[2:]])
    assert said == [f"No session on {day} in week {first.number}: the work is on the other days."]
