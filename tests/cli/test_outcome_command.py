"""``jumpblock outcome``: tests before and after a block, with its log, as text and as figures."""

from __future__ import annotations

import datetime
from dataclasses import replace
from pathlib import Path

import pytest

from planner.files.load import load_block
from planner.jobs.outcome_of_block import outcomes_of, usual_gain
from planner.report.outcome_text import chain_text
from tests.cards.reading import read
from tests.cli.conftest import athlete, change, retested

SQUAT = "{{kind: lift, date: {day}, movement: {lift}, load: {load}, reps: 5, reps_in_reserve: 2}}"
HIGHER = "3.06 m, 3.07 m, 3.06 m, 3.07 m"


@pytest.fixture
def block(coach: Path) -> Path:
    return coach / "block.yaml"


@pytest.fixture
def sessions(block: Path):
    return list(load_block(block).require().sessions)


@pytest.fixture
def day(sessions) -> datetime.date:
    return sessions[-1].date


@pytest.fixture
def again(coach, day):
    """Write the retest into the block's athlete's file."""

    def write(touches: str = HIGHER, *more: str, on: datetime.date = day) -> Path:
        return retested(athlete(coach), athlete(coach), on, touches, *more)

    return write


def said(outcome) -> str:
    return " ".join(outcome.out.split())


def test_the_outcome_in_a_minute(run, block, again, day) -> None:
    again(HIGHER, SQUAT.format(day=day, lift="back-squat", load="100 kg"))
    outcome = run("outcome", block)
    assert outcome.code == 0 and outcome.err == ""
    lines = outcome.out.splitlines()
    assert len(lines) < 50 and max(map(len, lines)) <= 98
    text = said(outcome)
    assert "2.978 m before (3 jumps on 1 day), 3.065 m after (4 jumps on 1 day)" in text
    assert "Seen: +8.7 ± 2.6 cm by the tests." in text
    assert "almost surely" in text and "It worked." in text
    assert "one-leg hip strength: not tested again" in text
    assert "No log: what was done of the plan is not known." in text


def test_the_figures_follow_from_the_errors_of_trials_and_days(run, block, again) -> None:
    again()
    jump = run("outcome", block, "--json").json["blocks"][0]["jump"]
    one = 0.02**2 + 0.01**2 / 12  # a trial and its scale; then the day, 1.5 cm
    error = (2 * 0.015**2 + one / 3 + one / 4) ** 0.5
    assert jump["seen"]["standard_error"] == pytest.approx(error, abs=1e-4)
    assert jump["prior"]["value"] == pytest.approx(0.029 / 2)  # four weeks of eight
    weight = 0.025**2 / (0.025**2 + error**2)
    believed = weight * jump["seen"]["value"] + (1 - weight) * 0.0145
    assert jump["believed"]["value"] == pytest.approx(believed, abs=2e-4)
    assert jump["by_jump_days"] is None and jump["worked"]


def test_no_gain_is_not_called_one_and_two_days_are_one_retest(run, block, again, day) -> None:
    again("2.98 m, 2.97 m")
    again("2.98 m, 2.98 m", on=day + datetime.timedelta(days=2))
    outcome = run("outcome", block)
    assert "That it worked cannot be said" in said(outcome) and "(4 jumps on 2 days)" in said(outcome)
    assert "neither shows a gain, and nobody knows how much of the plan was done" in said(outcome)


def test_another_method_is_refused_with_what_would_be_comparable(run, block, coach, day) -> None:
    path = athlete(coach)
    jump = f"  - {{kind: given-rise, date: {day}, take_off: two-leg, run_up: true, trials: [52 cm]}}\n"
    path.write_text(path.read_text("utf-8").rstrip() + "\n" + jump, "utf-8")
    outcome = run("outcome", block)
    assert outcome.code == 1 and "[other-method]" in outcome.err and outcome.out == ""
    assert "repeat the test of before: touch, two-leg off a run-up, by touch" in " ".join(outcome.err.split())


def test_a_movement_that_the_library_lacks_is_found_on_its_line(run, block, again) -> None:
    again()
    change(block, "movement: adductor-plank\n", "movement: no-such-plank\n")
    outcome = run("outcome", block)
    assert outcome.code == 1 and "[unknown-movement] 'no-such-plank' is not in the library" in outcome.err


def test_a_quality_by_another_form_is_not_compared(run, block, again, day) -> None:
    again(HIGHER, f"{{kind: heel-raise, date: {day}, form: strict, protocol: a metronome, left: 30, right: 30}}")
    assert "calf strength: free before and strict after are not one test; repeat free." in said(run("outcome", block))


def test_no_retest_and_a_late_one_are_refused(run, block, again, day) -> None:
    assert "[no-retest]" in run("outcome", block).err
    again(on=day + datetime.timedelta(days=60))
    outcome = run("outcome", block)
    assert outcome.code == 1 and "[no-retest]" in outcome.err and "below the old tests" in outcome.err


def test_what_was_done_and_jump_days_count(run, block, again, sessions) -> None:
    again("2.98 m, 2.97 m")
    touch = 2.90
    for session in sessions:
        words: list[object] = ["--as-planned"]
        jumps = [n for n, item in enumerate(session.items, 1) if item.part == "approach-jump" and item.tier == "high"]
        if jumps:
            touch += 0.01
            words += ["--item", jumps[0], f"{touch:.2f} m, {touch:.2f} m"]
        assert run("log", block, session.id, *words).code == 0
    data = run("outcome", block, "--json").json["blocks"][0]
    assert data["share_done"] == 1.0 and data["next"]["row"] == "neither-done"
    line, tests = data["jump"]["by_jump_days"], data["jump"]["by_tests_m"]
    assert line["days"] > 1 and line["value"] > 0 and line["counts"]
    assert data["jump"]["seen"]["standard_error"] < min(line["standard_error"], tests["standard_error"])
    assert "by the line through" in said(run("outcome", block))


def test_little_done_says_that_the_block_was_not_tested(run, block, again, sessions) -> None:
    again("2.98 m, 2.97 m")
    run("log", block, sessions[0].id, "--as-planned")
    text = said(run("outcome", block))
    assert "too little was done to test it" in text and "less than 80 % of the plan was done" in text


def test_a_gain_after_little_training_is_not_the_blocks_to_claim(run, block, again, sessions) -> None:
    again()
    run("log", block, sessions[0].id, "--as-planned")
    outcome = run("outcome", block)
    share = run("outcome", block, "--json").json["blocks"][0]["share_done"]
    assert f"only {100 * share:.0f} % of the block was done: with less than 80 % the gain is not" in said(outcome)
    assert "It worked." not in said(outcome)


def test_lifts_that_tell_no_quality_are_told_all_the_same(run, block, again, coach, sessions, day) -> None:
    lift = "{{kind: lift, date: {day}, movement: front-squat, load: {load} kg, reps: 3, reps_in_reserve: 1}}"
    earlier = sessions[0].date - datetime.timedelta(days=3)
    again(HIGHER, lift.format(day=earlier, load=80), lift.format(day=day, load=88))
    text, data = said(run("outcome", block)), run("outcome", block, "--json").json["blocks"][0]
    (told,) = data["lifts_of_no_quality"]
    assert told["movement"] == "front-squat" and told["seen_percent"]["value"] == pytest.approx(10, abs=0.01)
    assert "80 kg × 3, 1 rep in reserve before, 88 kg × 3, 1 rep in reserve after, maximum +10.0 ±" in text
    assert "no lift that tells a quality was tested again" in text and "no lift was tested again" not in text


def test_a_lift_tested_once_is_no_retest(run, block, again, day) -> None:
    again(HIGHER, f"{{kind: lift, date: {day}, movement: front-squat, load: 88 kg, reps: 3, reps_in_reserve: 1}}")
    text = said(run("outcome", block))
    assert "count for none of these" not in text and "no lift was tested again" in text


def test_a_sore_joint_goes_first(run, block, again, coach) -> None:
    again()
    change(athlete(coach), "    pain: 0", "    pain: 6")
    outcome = run("outcome", block)
    assert outcome.code == 0 and "Ceilings first" in outcome.out


def test_a_chain_of_blocks_shares_the_test_between_them(block, again) -> None:
    again()
    (first,) = outcomes_of([str(block)])
    second = replace(first, before=first.after, after=first.before, by_tests_m=first.by_tests_m)
    back = usual_gain([first, second])
    assert back.seen.se == pytest.approx(0.0, abs=1e-12)  # it ends where it began: every error drops out
    alone = usual_gain([first])
    assert alone.seen.se == pytest.approx(first.by_tests_m.se)
    assert "+8.7 ± 2.6 cm on average" in " ".join(chain_text([first], alone).split())


def test_one_log_is_of_one_block_and_a_block_is_named_once(run, block) -> None:
    assert run("outcome", block, block, "--log", "x.yaml").code == 2
    twice = run("outcome", block, block)
    assert twice.code == 1 and "[blocks-overlap]" in twice.err


@pytest.mark.parametrize("option", ["--athlete", "--log"])
def test_a_file_that_is_not_there_is_named(run, block, again, option) -> None:
    again()
    outcome = run("outcome", block, option, "no-such.yaml")
    assert outcome.code == 1 and outcome.err.startswith("no-such.yaml: [cannot-read]")


def test_an_edited_block_is_told_and_the_same_files_give_the_same_bytes(run, block, again, sessions) -> None:
    again()
    assert run("outcome", block).raw == run("outcome", block).raw
    change(block, f"minutes: {sessions[0].minutes}", f"minutes: {sessions[0].minutes + 1}")
    assert "[edited-block]" in run("outcome", block).err


def test_an_older_follow_up_file_reads_as_the_packaged_one(run, block, again, coach) -> None:
    again()
    before = run("outcome", block).raw
    path = coach / "templates" / "follow-up" / "standard.yaml"
    text = path.read_text("utf-8")
    start, end = text.index("# After the block:"), text.index("# Headings of a spreadsheet")
    path.write_text(text[:start] + text[end:], "utf-8")
    assert run("outcome", block).raw == before


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_a_page_as_a_pdf(run, block, again, coach, sessions, paper) -> None:
    again("3.06 m, 3.07 m", on=sessions[-1].date)
    run("log", block, sessions[0].id, "--as-planned")
    file = coach / "outcome.pdf"
    outcome = run("outcome", block, "-o", file, "--paper", paper)
    assert outcome.code == 0 and outcome.out == "" and f"Written: {file}" in outcome.err
    (page,) = read(file.read_bytes()).pages
    text = "\n".join(page)
    for said in ("Target jump, rise", "Planned and done", "What next", "Why:", "Working sets"):
        assert said in text
    assert run("outcome", block, "-o", "-", "--paper", paper).raw == file.read_bytes()


def test_a_pdf_replaces_only_pdfs_and_paper_needs_one(run, block, again, coach) -> None:
    again()
    assert run("outcome", block, "--paper", "a4").code == 2
    before = block.read_bytes()
    outcome = run("outcome", block, "-o", block)
    assert outcome.code == 1 and block.read_bytes() == before and "Traceback" not in outcome.err
