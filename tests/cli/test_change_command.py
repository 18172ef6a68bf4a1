"""``jumpblock change``: one thing changes with what hangs on it, and only what the change breaks is told."""

from __future__ import annotations

import re

import pytest

from planner.files.load import load_block
from tests.cli.conftest import files_in

BROKEN = re.compile(r"warning: \[([a-z0-9-]+)\]")


def _changed_lines(before: str, after: str) -> list[str]:
    return [line for line in after.splitlines() if line not in set(before.splitlines())]


def test_a_swap_changes_its_item_and_the_sums_that_hang_on_it(run, coach) -> None:
    before = (coach / "block.yaml").read_text("utf-8")
    words = ["w2s1", "--swap", "back-squat=front-squat", "--weeks", "2-3"]
    outcome = run("change", coach / "block.yaml", *words, "-o", coach / "new.yaml")
    assert outcome.code == 0, outcome.err
    after = (coach / "new.yaml").read_text("utf-8")
    new = load_block(coach / "new.yaml").require()
    assert [any(i.movement == "front-squat" for i in week.sessions[0].items) for week in new.weeks] == [0, 1, 1, 0]
    assert any("Elbows high" in line for line in _changed_lines(before, after))  # the other movement's cues
    assert BROKEN.findall(outcome.err) == []
    assert [edit.session for edit in new.edits] == ["w2s1", "w3s1"]
    checked = run("check", coach / "new.yaml")
    assert checked.code == 0 and "[edited-block]" in checked.out
    revised = run("revise", coach / "new.yaml", "--from", "2025-09-17", "-o", coach / "rest.yaml")
    assert revised.code == 0, revised.err
    rest = load_block(coach / "rest.yaml").require()
    assert any(item.movement == "front-squat" for item in rest.weeks[2].sessions[0].items)


def test_a_day_moved_breaks_what_it_breaks_and_no_more(run, coach) -> None:
    outcome = run("change", coach / "block.yaml", "w2s1", "--move", "tue", "--json")
    assert outcome.code == 0, outcome.err
    assert set(BROKEN.findall(outcome.err)) == {"hard-days-apart"}
    assert {finding["code"] for finding in outcome.json["findings"]} == {"hard-days-apart"}
    assert outcome.json["block"]["weeks"][1]["sessions"][0]["date"] == "2025-09-16"
    assert str(load_block(coach / "block.yaml").require().weeks[1].sessions[0].date) == "2025-09-16"


def test_a_date_edited_in_the_file_is_judged_like_a_move(run, coach) -> None:
    text = (coach / "block.yaml").read_text("utf-8")
    (coach / "block.yaml").write_text(text.replace("        date: 2025-09-15", "        date: 2025-09-16"), "utf-8")
    outcome = run("check", coach / "block.yaml", "--json")
    errors = {finding["code"] for finding in outcome.json["findings"] if finding["level"] == "error"}
    assert errors == {"hard-days-apart"}


def test_sums_that_an_edit_forgot_are_one_line_with_the_command_that_redoes_them(run, coach) -> None:
    text = (coach / "block.yaml").read_text("utf-8")
    first, second = text.index("      - id: w2s1"), text.index("      - id: w2s2")
    (coach / "block.yaml").write_text(text[:first] + text[second:], "utf-8")
    outcome = run("check", coach / "block.yaml")
    assert outcome.out.count("[figures]") == 1 and "--redo" in outcome.out
    assert "[continuity]" not in outcome.out  # the missing session is one thing, not one for each of its movements
    assert run("change", coach / "block.yaml", "--redo").code == 0
    assert "[figures]" not in run("check", coach / "block.yaml").out


def test_a_name_of_another_movement_and_a_date_of_another_week_are_found(run, coach) -> None:
    text = (coach / "block.yaml").read_text("utf-8")
    text = text.replace("movement: back-squat", "movement: front-squat", 1)
    (coach / "block.yaml").write_text(text.replace("date: 2025-09-22", "date: 2025-10-22", 1), "utf-8")
    codes = run("check", coach / "block.yaml", "--json").codes
    assert "other-name" in codes and "not-in-its-week" in codes


REFUSED = {
    "no such session": (["w9s1", "--drop"], "unknown-session"),
    "no such movement": (["w2s1", "--swap", "back-squat=front-squt"], "unknown-movement"),
    "not in the session": (["w2s1", "--swap", "dead-bug=front-squat"], "cannot-change"),
    "no such item": (["w2s1", "--sets", "99=2"], "cannot-change"),
    "a day that is taken": (["w2s1", "--move", "wed"], "cannot-change"),
    "the test's jumps": (["w4s2", "--sets", "1=9"], "cannot-change"),
}


@pytest.mark.parametrize("name", REFUSED)
def test_what_cannot_be_changed_is_said_and_nothing_is_written(run, coach, name) -> None:
    words, code = REFUSED[name]
    before, text = files_in(coach), (coach / "block.yaml").read_text("utf-8")
    outcome = run("change", coach / "block.yaml", *words)
    assert outcome.code == 1 and f"[{code}]" in outcome.err, outcome.err
    assert files_in(coach) == before and (coach / "block.yaml").read_text("utf-8") == text


MISUSED = ([], ["w2s1"], ["w2s1", "--drop", "--move", "tue"], ["w2s1", "--sets", "six=4"], ["w2s1", "--redo"])


@pytest.mark.parametrize("words", MISUSED, ids=" ".join)
def test_options_that_ask_for_nothing_or_for_two_things(run, coach, words) -> None:
    assert run("change", coach / "block.yaml", *words).code == 2


def test_comments_in_a_block_are_not_lost_unasked(run, coach) -> None:
    path = coach / "block.yaml"
    path.write_text(path.read_text("utf-8").replace("seed: 0\n", "seed: 0 # mine\n"), "utf-8")
    assert run("change", path, "w2s1", "--sets", "1=2").code == 2 and "# mine" in path.read_text("utf-8")
    assert run("change", path, "w2s1", "--sets", "1=2", "--force").code == 0
