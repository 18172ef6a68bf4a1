"""``jumpblock why``: the chain, the limits and the next-best movement, as data and as a text made from that data."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from planner.cli.plan import command as plan
from planner.cli.why import command
from planner.report.why_data import movement_data, session_data, week_data
from planner.report.why_text import movement_text, session_text, week_text
from planner.rules.places import place_in_words
from planner.rules.recount import count_block
from planner.rules.registry import rule_by_id
from planner.solve.explain import explain_movement, explain_session, tight_rows, week_chains
from tests.rules.kept_blocks import shipped_problem
from tests.solve.demos import ROOT, Demo, solved

UNITS = ("_m", "_s", "_N", "_kg", "_sets", "_contacts", "_sprint_efforts", "_factor", "_fraction", "_points", "_more")
# Numbers that are counts or names of something, not quantities; have, need and amount stand beside their unit.
PLAIN = {
    "week",
    "minutes",
    "sets",
    "reps",
    "percent",
    "reps_in_reserve",
    "have",
    "need",
    "amount",
    "at_most",
    "at_least",
}


@pytest.fixture(scope="module")
def demo() -> Demo:
    return solved("youth")


def _session(demo: Demo) -> dict[str, Any]:
    story = explain_session(demo.block, demo.problem, 2, 1)
    assert story is not None
    return session_data(story, demo.block, demo.problem)


def _week(demo: Demo) -> dict[str, Any]:
    tight = [at for at in tight_rows(demo.block, demo.problem) if at.row.at.week == 2]
    chains = week_chains(demo.block, demo.problem, 2)
    return week_data(demo.block.weeks[1], chains, tight, demo.block, demo.problem)


def _movement(demo: Demo, name: str) -> dict[str, Any]:
    movement = demo.problem.library[name]
    return movement_data(
        explain_movement(demo.block, demo.problem, movement),
        week_chains(demo.block, demo.problem, 1),
        demo.block,
        demo.problem,
    )


def test_a_week_says_what_the_auditor_counts(demo: Demo) -> None:
    counted = next(w for w in count_block(demo.block, demo.problem).weeks if w.number == 2)
    data = _week(demo)
    for line in data["chain"]:
        done = line.get("done_sets", line.get("done_sprint_efforts"))
        assert done == (
            counted.sprint_efforts if line["quality"] == "speed-exposure" else counted.quality_sets(line["quality"])
        )
    assert data["contacts"][0]["done_contacts"] == counted.contacts


def test_the_chain_begins_with_the_gap_and_names_every_tests_source(demo: Demo) -> None:
    data = _session(demo)
    assert data["gap"]["force_gap_N"] == demo.block.gap.gap.mean_ground_force_N
    assert [line["quality"] for line in data["chain"]] == list(
        dict.fromkeys(line.quality for line in demo.block.gap.qualities)
    )
    assert all(line["source"] for line in data["chain"] if line["status"] == "tested")


def test_of_two_legs_the_chain_shows_the_one_further_from_what_is_needed(demo: Demo) -> None:
    legs = [line for line in demo.block.gap.qualities if line.quality == "calf-ankle"]
    assert len(legs) == 2 and legs[0].deficit != legs[1].deficit, "the demo's legs differ"
    shown = next(line for line in _session(demo)["chain"] if line["quality"] == "calf-ankle")
    assert shown["deficit_fraction"] == max(line.deficit for line in legs)


def test_limits_are_met_exactly_and_carry_their_source(demo: Demo) -> None:
    found = tight_rows(demo.block, demo.problem)
    assert found, "no rule of the block is at its limit"
    for at in found:
        assert at.total in (at.row.low, at.row.high)
        rule = rule_by_id(at.row.rule)
        assert rule is not None and rule.source


def test_next_best_is_open_elsewhere_unused_and_of_the_same_place(demo: Demo) -> None:
    learn = [week for week in demo.block.weeks if week.phase == "learn"]
    used = {item.movement for week in learn for session in week.sessions for item in session.items}
    offered = [item for item in _session(demo)["items"] if item["next_best"]]
    assert offered
    for item in offered:
        rival, here = demo.problem.library[item["next_best"]["movement"]], demo.problem.library[item["movement"]]
        assert rival.id not in used
        assert rival.part == here.part
        assert not here.patterns or set(rival.patterns) & set(here.patterns)


def test_a_movement_that_is_closed_says_by_which_rule(demo: Demo) -> None:
    data = _movement(demo, "back-squat")
    assert {line["rule"] for line in data["closed_by"]} == {"equipment", "level"}
    assert "needs barbell, rack, which the gym does not have" in movement_text(data)


def test_a_movement_that_costs_a_band_says_how_much(demo: Demo) -> None:
    cost = _movement(demo, "countermovement-jump")["next_best"]
    assert cost["fits"] is False
    assert cost["would_miss"] and all(line["amount"] > 0 and line["unit"] == "contacts" for line in cost["would_miss"])


def test_the_text_holds_the_figures_of_the_data(demo: Demo) -> None:
    data = _week(demo)
    changed = json.loads(json.dumps(data))
    changed["chain"][0]["done_sets"] = 77.25
    changed["gap"]["force_gap_N"] = 4321.0
    assert "77.25" in week_text(changed) and "4321 N more" in week_text(changed)
    assert "77.25" not in week_text(data)
    text = session_text(_session(demo))
    assert f"Why today: {demo.block.weeks[1].sessions[0].why[:40]}" in text


def test_numbers_carry_their_unit_in_the_key(demo: Demo) -> None:
    unknown = {key for key in _number_keys(_session(demo)) | _number_keys(_week(demo)) if not key.endswith(UNITS)}
    assert unknown <= PLAIN | {"load_kg"}


def _number_keys(value: Any, key: str = "") -> set[str]:
    if isinstance(value, dict):
        return {found for name, inner in value.items() for found in _number_keys(inner, name)}
    if isinstance(value, list):
        return {found for inner in value for found in _number_keys(inner, key)}
    return {key} if isinstance(value, int | float) and not isinstance(value, bool) else set()


def test_every_session_has_its_line_why_today(demo: Demo) -> None:
    for week in demo.block.weeks:
        for session in week.sessions:
            assert session.why.strip().endswith("."), session.id


def test_the_command_gives_data_and_text_of_each_kind(shipped_block: Path) -> None:
    for arguments, about in (
        (["--week", "2", "--session", "1"], "session"),
        (["--week", "2"], "week"),
        (["goblet-squat"], "movement"),
    ):
        told = CliRunner().invoke(command, [str(shipped_block), *arguments, "--json"])
        assert told.exit_code == 0, told.output
        assert json.loads(told.output)["about"] == about


@pytest.fixture
def shipped_block(tmp_path: Path) -> Path:
    """A block made from the shipped files by their paths, as the command finds them again."""
    made = CliRunner().invoke(
        plan, [str(ROOT / "templates/athletes/youth-two-leg-jumper.yaml"), "-o", str(tmp_path / "block.yaml")]
    )
    assert made.exit_code == 0, made.output
    return tmp_path / "block.yaml"


def test_the_chain_follows_the_tests_that_count_and_no_other() -> None:
    """The adult's calf has a test that says more and is believed less: the share does not come from it."""
    adult = solved("adult")
    lines = [line for line in adult.block.gap.qualities if line.quality == "calf-ankle"]
    counted = next(line for line in lines if line.counts)
    assert max(line.deficit for line in lines) > counted.deficit
    chain = next(c for c in week_chains(adult.block, adult.problem, 2) if c.line.quality == "calf-ankle")
    assert (chain.line, chain.others) == (counted, ())


def test_two_tests_that_count_together_are_both_in_the_chain() -> None:
    adult = solved("adult")
    chain = next(c for c in week_chains(adult.block, adult.problem, 2) if c.line.quality == "speed-exposure")
    assert [line.unit for line in (chain.line, *chain.others)] == ["N", "m/s"]


def test_two_hard_days_too_close_are_told_as_a_choice_between_them() -> None:
    planned = shipped_problem("adult")
    rule = rule_by_id("hard-days-apart")
    assert rule is not None
    pair = next(row for row in rule.rows(planned) if len(row.terms) == 2 and row.high == 1)
    told = rule.at_limit(pair)
    assert told == "only one of the two may be hard"
    assert place_in_words(pair.at, pair.other, planned).count("week") == 1
