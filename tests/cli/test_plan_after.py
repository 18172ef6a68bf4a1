"""``jumpblock plan --after``: what the new block takes over, and what is refused. Nothing is solved here."""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest

from planner.domain.block_before import BlockBefore
from planner.files.digest import plan_digest
from planner.files.dump import block_to_yaml
from planner.files.load import load_block
from planner.jobs import plan_block
from planner.problem.after_block import as_left
from tests.cli.conftest import athlete, change, files_in, retested

SQUAT = "{{kind: lift, date: {day}, movement: back-squat, load: 100 kg, reps: 5, reps_in_reserve: 2}}"


@pytest.fixture
def block(coach: Path) -> Path:
    return coach / "block.yaml"


@pytest.fixture
def sessions(block: Path):
    return list(load_block(block).require().sessions)


@pytest.fixture
def after(run, coach, block, monkeypatch: pytest.MonkeyPatch):
    """Plan after the block; what the planner was asked for, and what was said. The block stands for the new one."""
    asked: dict[str, object] = {}

    def planned(sources, folder, **wanted):
        asked.update(wanted)
        return load_block(block).require()

    monkeypatch.setattr(plan_block, "plan_block", planned)

    def run_it(*words: object):
        outcome = run("plan", athlete(coach), "--after", block, *words)
        before = asked.get("before")
        assert before is None or isinstance(before, BlockBefore)
        return outcome, " ".join(outcome.err.split()), before, asked.get("start")

    return run_it


def test_without_log_and_retest_it_counts_as_planned_and_says_so(after, sessions) -> None:
    outcome, said, before, start = after()
    last = sessions[-1].date
    assert outcome.code == 0 and before.log is None and before.row is None
    assert before.last_hard_day == last and 4 <= (start - last).days <= 8
    assert start.weekday() == sessions[0].date.weekday(), "the weeks go on as they were"
    assert "It has no log, so it counts as done as it was planned." in said
    assert "No outcome (no test from the block's test day on" in said


def test_the_usual_week_is_the_mean_of_the_load_weeks_as_they_were_done(run, after, block, sessions) -> None:
    weeks = [week for week in load_block(block).require().weeks if week.role not in ("deload", "taper")]
    planned = after()[2].usual_week
    assert planned.weeks == tuple(week.number for week in weeks)
    sport = planned.weekly_contacts - sum(sum(week.totals.contacts.values()) for week in weeks) / len(weeks)
    for session in sessions:
        run("log", block, session.id, *(["--missed", "ill"] if session.id.startswith("w3") else ["--as-planned"]))
    _, said, before, _ = after()
    done = before.usual_week
    third = weeks[2].totals
    assert done.weekly_sprints == round(sum(w.totals.sprint_efforts for w in weeks[:2]) / 3)
    assert done.joint_stress["hip-groin"].left < planned.joint_stress["hip-groin"].left
    lost = sum(third.contacts.values()) / 3
    assert done.weekly_contacts == pytest.approx(planned.weekly_contacts - lost, abs=1) and sport >= 0
    assert f"{done.weekly_working_sets} working sets, {done.weekly_contacts} contacts" in said
    assert before.log is not None and "no log" not in said


def test_the_recent_load_of_the_file_gives_way(coach, after) -> None:
    before = after()[2]
    from planner.files.load import load_athlete

    found = as_left(load_athlete(athlete(coach)).require(), before).recent_load
    assert found.weekly_working_sets == before.usual_week.weekly_working_sets


def test_a_squat_that_the_log_follows_and_no_test_has_seen(run, after, block, sessions, coach) -> None:
    heavy = [session for session in sessions if any(item.movement == "back-squat" for item in session.items)]
    for session in sessions:
        words: list[object] = ["--as-planned"]
        if session in heavy:
            number = next(n for n, item in enumerate(session.items, 1) if item.movement == "back-squat")
            load, reps = session.items[number - 1].load_kg + 15, session.items[number - 1].reps
            words += ["--item", number, f"{load:g} kg x {reps}; 3 left"]
        assert run("log", block, session.id, *words).code == 0
    _, said, before, _ = after()
    assert before.maxima["back-squat"] > 1.03 and "Maxima by the log, of lifts not tested since: Back squat" in said
    day = sessions[-1].date
    retested(athlete(coach), athlete(coach), day, "3.06 m, 3.07 m", SQUAT.format(day=day))
    before = after()[2]
    assert "back-squat" not in before.maxima, "a later test counts"
    assert before.row is not None


def test_what_the_outcome_asks_for_is_done_and_said(after, coach, sessions) -> None:
    day = sessions[-1].date
    retested(athlete(coach), athlete(coach), day, "2.98 m, 2.97 m")
    _, said, before, _ = after()
    assert before.row == "neither-unknown" and not before.rotate and before.lifts == before.jumps == 1
    assert "write the next block down" in said and "here: accessory movements stay" in said


def test_strength_up_and_the_jump_not(after, coach, sessions) -> None:
    day = sessions[-1].date
    retested(athlete(coach), athlete(coach), day, "2.98 m, 2.97 m", SQUAT.format(day=day).replace("100 kg", "120 kg"))
    _, said, before, _ = after()
    assert before.row == "strength-up" and before.lifts < 1 < before.jumps and before.rotate
    assert "90 % of the lifts' sets and 115 % of sprints and harder jumps" in said


def test_pain_of_the_log_counts_where_it_is_worse_than_the_file(run, after, block, sessions) -> None:
    run("log", block, sessions[0].id, "--as-planned", "--pain", "left patellar-knee 3 4")
    _, said, before, _ = after()
    assert [(state.joint, state.pain) for state in before.pain] == [("patellar-knee", 4)]
    assert "left knee 4 of 10; its ceilings are lowered" in said
    assert "Sessions without an entry in the log count as not done" not in said, "the log ends there"


def test_a_first_day_too_early_is_refused_with_the_earliest(after, coach, sessions) -> None:
    there = files_in(coach)
    last = sessions[-1].date
    outcome, said, *_ = after("--start", last + datetime.timedelta(days=3), "-o", coach / "next.yaml")
    assert outcome.code == 1 and outcome.out == "" and files_in(coach) == there
    earliest = last + datetime.timedelta(days=4)
    assert "[too-early]" in said and f"--start {earliest} leaves 3 easier days between" in said
    assert after("--start", earliest)[3] == earliest


def test_a_long_rest_halves_the_usual_week(after, sessions) -> None:
    usual = after()[2].usual_week
    late = sessions[-1].date + datetime.timedelta(days=21)
    rested = after("--start", late)[2].usual_week
    assert rested.weekly_working_sets == pytest.approx(0.55 * usual.weekly_working_sets, abs=0.6)


def test_a_block_of_another_athlete_is_refused_on_its_line(run, coach, block) -> None:
    other = athlete(coach, "adult-one-leg-jumper")
    outcome = run("plan", other, "--after", block, "-o", coach / "next.yaml")
    assert outcome.code == 1 and "[other-athlete]" in outcome.err and "block.yaml:" in outcome.err
    assert "Traceback" not in outcome.err and not (coach / "next.yaml").exists()


@pytest.mark.parametrize("name", ["no-such.yaml", "templates/athletes/youth-two-leg-jumper.yaml"])
def test_what_is_no_block_is_refused(run, coach, name) -> None:
    outcome = run("plan", athlete(coach), "--after", coach / name)
    assert outcome.code == 1 and outcome.out == "" and Path(name).name in outcome.err and "Traceback" not in outcome.err


def test_check_holds_a_block_against_the_one_before(run, coach, block, after) -> None:
    """The same weeks after a block that had one high jump a week: week 1 has too many of them."""
    before = after()[2]
    usual = before.usual_week.model_copy(update={"weekly_high_contacts": 1})
    for weak, finds in ((before, False), (before.model_copy(update={"usual_week": usual}), True)):
        new = load_block(block).require().model_copy(update={"before": weak})
        new = new.model_copy(update={"plan_sha256": plan_digest(new)})
        path = coach / "second.yaml"
        path.write_text(block_to_yaml(new), "utf-8")
        assert load_block(path).require() == new
        assert ("high-tier contacts; the recent load allows 1" in run("check", path).out) is finds


def test_a_maximum_that_the_log_says_nothing_of_is_taken_over(run, coach, block, after) -> None:
    before = after()[2].model_copy(update={"maxima": {"back-squat": 1.05}})
    second = load_block(block).require().model_copy(update={"before": before})
    path = coach / "block.yaml"
    path.write_text(block_to_yaml(second.model_copy(update={"plan_sha256": plan_digest(second)})), "utf-8")
    assert after()[2].maxima == {"back-squat": 1.05}


def test_an_older_follow_up_file_reads_as_the_packaged_one(after, coach) -> None:
    packaged = after()[2]
    path = coach / "templates" / "follow-up" / "standard.yaml"
    text = path.read_text("utf-8")
    start, end = text.index("# With plan --after"), text.index("# Headings of a spreadsheet")
    path.write_text(text[:start] + text[end:], "utf-8")
    assert after()[2] == packaged


def test_days_the_wrong_way_round_are_told_on_their_line(after, coach) -> None:
    change(coach / "templates" / "follow-up" / "standard.yaml", "most_easier_days: 7", "most_easier_days: 1")
    outcome, said, *_ = after()
    assert outcome.code == 1 and "standard.yaml:" in said and "'most_easier_days' is below easier_days" in said
