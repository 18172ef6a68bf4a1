"""Rules that look back into the block before: rows and audit are held to the same seam, worked by hand."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import pytest

from planner.domain.block_before import BlockBefore
from planner.problem.model import Problem
from planner.rules.recount import count_block
from planner.rules.registry import rule_named
from planner.solve.preferences import movement_cost
from tests.rules.edits import edited
from tests.rules.kept_blocks import changed_problem, kept_block, kept_problem, kept_values

BAR_HINGE = "straight-leg-bar-hinge"
LADDERS = {"jump_progress": {"held_contact_s": 0.25, "hops_calf_short": 0.15}}
SOMEWHERE = {"path": "before.yaml", "sha256": "0" * 64}
MUCH = {"left": 200.0, "right": 200.0}
JOINTS = ("achilles-ankle", "patellar-knee", "hip-groin", "hamstring", "low-back")
OTHER = {"preferences": {"other_main_lift": 20}}
RECOVERY = {
    "recovery": {
        "after_hard_day_points": 8,
        "sore_full_jumps_week": 8,
        "sore_days_apart": 3,
        "one_leg_sets_before_jumps": 2,
        "calf_days_apart": 2,
    }
}
KNOWN = {"part": "jump", "weeks": 4, "to_the_end": True}


def before(**changes: Any) -> BlockBefore:
    """A block before that leaves room for anything, with some lines changed; ``usual`` changes its usual week."""
    usual = {
        "weekly_contacts": 900,
        "weekly_sprints": 90,
        "weekly_working_sets": 90,
        "weeks": [3],
        "leg_contacts": dict.fromkeys(("low", "medium", "high"), MUCH),
        "joint_stress": dict.fromkeys(JOINTS, MUCH),
        **changes.pop("usual", {}),
    }
    lines = {"block": SOMEWHERE, "last_hard_day": "2025-09-01", "usual_week": usual, **changes}
    return BlockBefore.model_validate_json(json.dumps(lines))


def broken_rows(problem: Problem, rule: str) -> int:
    """Of the kept block's values: rows that do not hold."""
    values = kept_values("adult")
    sums = ((row, sum(c * values.get(key, 0) for c, key in row.terms)) for row in rule_named(rule).rows(problem))
    return sum((row.high is not None and s > row.high) or (row.low is not None and s < row.low) for row, s in sums)


def sentences(problem: Problem, rule: str, edits: tuple[Any, ...] = ()) -> list[str]:
    block = edited(kept_block("adult"), kept_problem("adult"), edits) if edits else kept_block("adult")
    return [breach.sentence for breach in rule_named(rule).audit(count_block(block, problem))]


def adult(**changes: Any) -> Problem:
    return replace(kept_problem("adult"), before=before(**changes))


@pytest.mark.parametrize("rule", ["growth", "stress-growth", "jump-ladder", "new-hinges", "not-new-together"])
def test_a_block_before_that_leaves_room_breaks_nothing(rule: str) -> None:
    assert sentences(adult(), rule) == [] and broken_rows(adult(), rule) == 0


def test_each_tier_on_each_leg_grows_from_the_block_before() -> None:
    """Week 1 has 11 high contacts on the left leg: 3 and the step of 8 allow it, 2 do not."""
    enough = {"leg_contacts": {"low": MUCH, "medium": MUCH, "high": {"left": 3.0, "right": 3.0}}}
    assert sentences(adult(usual=enough), "growth") == [] and broken_rows(adult(usual=enough), "growth") == 0
    less = {"leg_contacts": {"low": MUCH, "medium": MUCH, "high": {"left": 2.0, "right": 3.0}}}
    assert sentences(adult(usual=less), "growth") == [
        "week 1: 11 high-tier contacts on the left leg after 2 in a usual week of the block before; at most 10.0"
    ]
    assert broken_rows(adult(usual=less), "growth") == 1


def test_stress_grows_from_the_block_before_but_may_reach_a_novices_week() -> None:
    """A novice's 43 points of the Achilles tendon are below this week 1, and above its hip and back."""
    none = {"joint_stress": {joint: {"left": 0.0, "right": 0.0} for joint in JOINTS}}
    week = count_block(kept_block("adult"), kept_problem("adult")).week(1)
    over = [(joint, leg) for joint in JOINTS for leg in ("left", "right") if week.stress(joint, leg) > 43]  # type: ignore[arg-type]
    said = sentences(adult(usual=none), "stress-growth")
    assert 0 < len(over) < 10 and len(said) == broken_rows(adult(usual=none), "stress-growth") == len(over)
    assert all("after 0.0 in a usual week of the block before; at most 43.0" in one for one in said)


def test_a_ladder_goes_on_from_where_it_ended() -> None:
    """The kept block drops from 20 cm in its first phase; the one before had reached 30."""
    planned = replace(changed_problem("adult", template=LADDERS), before=before(ladder={"drop jumps": 0.3}))
    said = sentences(planned, "jump-ladder")
    assert "drop jumps: 30 cm in the block before, 20 cm in the phase 'build'" in said
    without = replace(planned, before=before())
    assert len(said) == len(sentences(without, "jump-ladder")) + 1
    assert broken_rows(planned, "jump-ladder") > broken_rows(without, "jump-ladder")
    ladder, plain = ({row.at: row for row in rule_named("jump-ladder").rows(one)} for one in (planned, without))
    more = {at.movement for at in set(ladder) - set(plain)}
    assert more == {"drop-jump-20"}, "what is on no ladder is free, and so is a box as high as the last"
    higher = replace(planned, before=before(ladder={"drop jumps": 0.9}))
    said = " ".join(sentences(higher, "jump-ladder"))
    assert "drop jumps: 30 cm in the block before" in said, "no more than that is open"


def test_a_hinge_that_was_done_before_is_not_new() -> None:
    edits = tuple({"add": {"week": 1, "session": 3, "item": item, "sets": 2}} for item in ("one-leg-hinge", BAR_HINGE))
    recovery = changed_problem("adult", template=RECOVERY)
    new = replace(recovery, before=before())
    known = replace(recovery, before=before(known=[{"movement": BAR_HINGE, **KNOWN}]))
    assert len(sentences(new, "new-hinges", edits)) == 1 and sentences(known, "new-hinges", edits) == []


def costs(rotate: bool) -> Iterator[tuple[str, int]]:
    done = [{"movement": "back-squat", **KNOWN, "part": "main-lift"}, {"movement": "nordic-curl", **KNOWN}]
    plain, after = changed_problem("adult", template=OTHER), adult(known=done, rotate=rotate)
    after = replace(plain, before=after.before)
    for name in ("back-squat", "front-squat", "nordic-curl", "strapped-curl"):
        yield name, movement_cost(after, plain.library[name]) - movement_cost(plain, plain.library[name])


def test_main_lifts_go_on_and_accessories_change_or_stay() -> None:
    repeated = kept_problem("adult").template.preferences.repeated
    assert dict(costs(True)) == {"back-squat": 0, "front-squat": 20, "nordic-curl": repeated, "strapped-curl": 0}
    assert dict(costs(False)) == {"back-squat": 0, "front-squat": 20, "nordic-curl": 0, "strapped-curl": repeated}
