"""``jumpblock revise`` in a coach's folder: what it prints, what it writes, and what it refuses."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from planner.domain.findings import Finding, UserError
from planner.files.load import load_block
from planner.jobs.carry_log import carry_log
from tests.cli.conftest import change, files_in

LOG = """\
file: log/1
block: {{path: block.yaml, plan_sha256: {digest}}}
sessions:
  - {{session: w1s1, date: 2025-09-08, done: as-planned, effort: 6, minutes: 60}}
  - {{session: w1s2, date: 2025-09-10, done: as-planned, effort: 6, minutes: 60}}
  - {{session: w2s1, done: missed, why: ill}}
"""


def _log(folder: Path, more: str = "") -> None:
    digest = load_block(folder / "block.yaml").require().plan_sha256
    (folder / "block-log.yaml").write_text(LOG.format(digest=digest) + more, "utf-8")


def _lines(text: str, first: str, end: str) -> str:
    return text[text.index(first) : text.index(end)]


def test_the_rest_after_a_missed_session(run, coach, tmp_path) -> None:
    _log(coach, "extra:\n  - {date: 2025-09-13, what: school match, minutes: 40, contacts: 30}\n")
    outcome = run("revise", coach / "block.yaml", "-o", coach / "new.yaml")
    assert outcome.code == 0, outcome.err
    assert re.search(r"^(no|\d+) cards? to print again", outcome.err, re.MULTILINE)
    assert (
        "no day moved" in outcome.err
        and "Proved: no rest of this block comes closer to the weekly ranges" in outcome.err
    )
    old, new = (coach / "block.yaml").read_text("utf-8"), (coach / "new.yaml").read_text("utf-8")
    assert _lines(old, "  - number: 1", "  - number: 2") == _lines(new, "  - number: 1", "  - number: 2")
    told = load_block(coach / "new.yaml").require().revision
    assert told is not None and str(told.first_day) == "2025-09-16"
    assert told.block.path == "block.yaml" and told.log is not None and told.log.path == "block-log.yaml"
    assert [one.session for one in told.done] == ["w2s1"]
    assert run("check", coach / "new.yaml").code == 0
    assert run("why", coach / "new.yaml", "--week", "3", "--session", "1").code == 0
    assert run("cards", coach / "new.yaml", "-o", tmp_path / "new.pdf").code == 0
    assert run("calendar", coach / "new.yaml", "-o", tmp_path / "new.ics").code == 0
    # The log so far goes with it, and both blocks say which one goes on.
    after = outcome.err.partition("Next: ")[2]
    assert f"jumpblock log {coach / 'new.yaml'}" in after and f"cards {coach / 'new.yaml'} --from" in after
    assert "path: new.yaml" in (coach / "new-log.yaml").read_text("utf-8")
    assert run("check", coach / "new-log.yaml").code == 0
    assert "2 of 3 sessions" in run("progress", coach / "new.yaml").out
    stale = run("progress", coach / "block.yaml")
    assert stale.code == 0 and "[revised-since]" in stale.err and "new.yaml" in stale.err
    # Revised again, what was done before stays known.
    outcome = run("revise", coach / "new.yaml", "--from", "2025-09-22", "-o", coach / "newer.yaml", "--json")
    assert outcome.code == 0, outcome.err
    data = outcome.json
    assert data["first_day"] == "2025-09-22" and data["days_moved"] == {} and data["forced"] == []
    assert f"{len(data['cards_to_print'])} card" in outcome.err
    assert {"changes", "other_loads", "shortfalls", "proof"} < data.keys()
    assert data["block"]["plan_sha256"] == load_block(coach / "newer.yaml").require().plan_sha256
    told = load_block(coach / "newer.yaml").require().revision
    assert told is not None and [one.session for one in told.done] == ["w2s1"]
    assert [(str(work.date), work.contacts) for work in told.extra] == [("2025-09-13", 30)]


def test_a_log_that_tells_more_is_not_replaced_by_the_one_so_far(run, coach) -> None:
    _log(coach)
    (coach / "new-log.yaml").write_text("file: log/1\nblock: {path: new.yaml, plan_sha256: x}\nsessions: []\n", "utf-8")
    block, old = load_block(coach / "block.yaml").require(), (coach / "block-log.yaml").read_text("utf-8")
    carry_log(coach / "block.yaml", coach / "new.yaml", block)  # nothing in it is lost
    copied = (coach / "new-log.yaml").read_text("utf-8")
    assert copied == old.replace("path: block.yaml", "path: new.yaml")
    change(coach / "new-log.yaml", "effort: 6", "effort: 9")
    edited = (coach / "new-log.yaml").read_text("utf-8")
    (told,) = carry_log(coach / "block.yaml", coach / "new.yaml", block)
    assert told.code == "log-kept" and (coach / "new-log.yaml").read_text("utf-8") == edited
    assert carry_log(coach / "block.yaml", coach / "block.yaml", block) == []  # revised in place


REFUSED = {
    "nothing-logged": ([], "jumpblock log"),
    "too-early": (["--from", "2025-09-08"], "from 2025-09-09 on"),
    "too-late": (["--from", "2025-11-01"], "the next block"),
}


@pytest.mark.parametrize("code", REFUSED)
def test_a_day_that_leaves_nothing_to_plan_is_refused(run, coach, code) -> None:
    words, hint = REFUSED[code]
    before = files_in(coach)
    outcome = run("revise", coach / "block.yaml", "-o", coach / "new.yaml", *words)
    assert outcome.code == 1 and f"[{code}]" in outcome.err and hint in outcome.err
    assert files_in(coach) == before


@pytest.mark.parametrize("name", ["nobody.yaml", "block.yaml", "templates"])
def test_another_athletes_file_that_is_none_is_named_itself(run, coach, name) -> None:
    _log(coach)
    outcome = run("revise", coach / "block.yaml", "--athlete", coach / name)
    assert outcome.code == 1 and name in outcome.err.splitlines()[0] and "in-season-player" not in outcome.err


def test_a_movement_that_the_library_does_not_have_is_named_on_its_line(run, coach) -> None:
    _log(coach)
    head, weeks, rest = (coach / "block.yaml").read_text("utf-8").partition("\n  - number: 3\n")
    (coach / "block.yaml").write_text(head + weeks + rest.replace("movement: ", "movement: no-such-", 1), "utf-8")
    before = files_in(coach)
    outcome = run("revise", coach / "block.yaml", "-o", coach / "new.yaml")
    assert outcome.code == 1 and "[unknown-movement]" in outcome.err
    assert files_in(coach) == before


def test_a_day_before_the_log_ends_is_refused(run, coach) -> None:
    _log(coach)
    outcome = run("revise", coach / "block.yaml", "--from", "2025-09-10")
    assert outcome.code == 1 and "[logged-later]" in outcome.err and "w1s2 and w2s1" in outcome.err


def test_pain_stops_the_rest_as_it_stops_a_block(run, coach) -> None:
    change(coach / "templates/athletes/in-season-player.yaml", "    pain: 0", "    pain: 8")
    outcome = run("revise", coach / "block.yaml", "--from", "2025-09-16", "-o", coach / "new.yaml")
    assert outcome.code == 1 and "[pain]" in outcome.err and "see a clinician" in outcome.err
    assert not (coach / "new.yaml").exists()


def test_an_older_template_without_prices_is_told_what_to_do(run, coach) -> None:
    limits = coach / "templates/limits/standard.yaml"
    text = limits.read_text("utf-8")
    limits.write_text(re.sub(r"(?m)^revise:\n(?:  .*\n)+", "", text), "utf-8")
    outcome = run("revise", coach / "block.yaml", "--from", "2025-09-16")
    assert outcome.code == 1 and "[no-prices]" in outcome.err


def test_loads_follow_the_log_and_are_told_apart_from_changes(run, coach) -> None:
    """A squat done with far more left than planned: its maximum is higher, and only loads change."""
    block = load_block(coach / "block.yaml").require()
    squat = next(item for item in block.weeks[0].sessions[0].items if item.movement == "back-squat")
    told = f"load: {squat.load_kg:g} kg, reps: [{squat.reps}, {squat.reps}], reps_in_reserve: [7]"
    more = f"items: [{{item: {squat.id}, {told}}}]"
    _log(coach)
    change(coach / "block-log.yaml", "minutes: 60", f"minutes: 60, {more}")
    outcome = run("revise", coach / "block.yaml", "--loads-only", "-o", coach / "new.yaml")
    assert outcome.code == 0, outcome.err
    assert "0 cards to print again" in outcome.err and "other loads alone on" in outcome.err
    told = load_block(coach / "new.yaml").require().revision
    assert told is not None and told.maxima["back-squat"] > 1


def test_after_more_than_twenty_days_lost_the_answer_is_a_new_block(run, coach) -> None:
    missed = "".join(f"  - {{session: {name}, done: missed, why: ill}}\n" for name in ("w2s2", "w3s1", "w3s2", "w4s1"))
    _log(coach, missed)
    trained = "{session: w1s2, date: 2025-09-10, done: as-planned, effort: 6, minutes: 60}"
    change(coach / "block-log.yaml", trained, "{session: w1s2, done: missed, why: ill}")
    outcome = run("revise", coach / "block.yaml", "--from", "2025-10-01", "-o", coach / "new.yaml")
    assert outcome.code == 1 and "[too-long-away]" in outcome.err and "jumpblock plan --start" in outcome.err


def test_a_session_lost_to_a_date_away_can_move_to_a_free_day_of_its_week(run, coach) -> None:
    """The third Monday is away: the note names the command that keeps its session, and the rest holds it."""
    change(coach / "templates/athletes/in-season-player.yaml", "  away: []", "  away: [2025-09-22]")
    outcome = run("revise", coach / "block.yaml", "--from", "2025-09-18", "-o", coach / "without.yaml")
    assert outcome.code == 0 and "[day-lost] w3s1 (Mon 22 Sep)" in outcome.err
    assert [len(week.sessions) for week in load_block(coach / "without.yaml").require().weeks] == [2, 2, 1, 2]
    words = re.search(r"jumpblock change \S+ (w3s1 --move \w+)", outcome.err)
    assert words is not None and "Tue 23 Sep" in outcome.err
    assert run("change", coach / "block.yaml", *words.group(1).split()).code == 0
    kept = run("revise", coach / "block.yaml", "--from", "2025-09-18", "-o", coach / "kept.yaml")
    assert kept.code == 0 and "[day-lost]" not in kept.err, kept.err
    third = load_block(coach / "kept.yaml").require().weeks[2]
    assert len(third.sessions) == 2 and str(third.sessions[0].date) == "2025-09-23"
    assert run("check", coach / "kept.yaml").code == 0


@pytest.mark.parametrize("there", [False, True])
def test_a_log_that_cannot_be_copied_leaves_no_block_either(run, coach, monkeypatch, there) -> None:
    """Two files go together: the block, and the log so far."""
    from planner.jobs import carry_log

    def refused(*_: object) -> None:
        raise UserError([Finding("log", 0, 0, "cannot-write", "the file cannot be written: no space", "")])

    assert run("log", coach / "block.yaml", "w1s1", "--effort", "7").code == 0
    made = coach / "new" / "rest.yaml"
    if there:
        assert run("revise", coach / "block.yaml", "-o", made, "--loads-only").code == 0
    before = made.read_bytes() if there else None
    monkeypatch.setattr(carry_log, "write_atomically", refused)
    assert run("revise", coach / "block.yaml", "-o", made, "--loads-only").code == 1
    assert (made.read_bytes() if there else None) == before
    assert there or not made.parent.exists()


def test_pain_of_the_log_is_told_by_the_log_and_not_on_a_line_of_the_athlete(run, coach) -> None:
    _log(coach)
    run("log", coach / "block.yaml", "w2s1", "--pain", "left knee 6 6")
    rest = run("revise", coach / "block.yaml", "-o", coach / "new.yaml")
    athlete = coach / "templates/athletes/in-season-player.yaml"
    follows = run("plan", athlete, "--after", coach / "block.yaml", "-o", coach / "new.yaml")
    for outcome in (rest, follows):
        assert outcome.code == 1 and "in-season-player.yaml" not in outcome.err
        assert "block-log.yaml: [pain] by the log, pain 6 of 10 in the left knee" in outcome.err
    assert not (coach / "new.yaml").exists()
