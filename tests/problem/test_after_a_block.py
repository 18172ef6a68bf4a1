"""What a block before leaves to the next: its usual week, its pain, and what its outcome asks."""

from __future__ import annotations

import pytest

from planner.domain.athlete import JointState
from planner.domain.block_before import BlockBefore, UsualWeek
from planner.domain.findings import UserError
from planner.estimate.emphasis import Freed
from planner.problem.after_block import as_left, asked_after
from planner.problem.not_plannable import refuse_logged_pain, refuse_unknown_phases
from tests.solve.demos import athlete, template

PLAYER = "in-season-player"  # who says of the knee: both knees stiff after tournaments
USUAL = {"weekly_contacts": 180, "weekly_high_contacts": 12, "weekly_sprints": 5, "weekly_working_sets": 17}


def before(*pain: JointState, **more: float) -> BlockBefore:
    usual = UsualWeek.model_validate({**USUAL, "weeks": [2, 3], "leg_contacts": {}, "joint_stress": {}})
    return BlockBefore.model_construct(usual_week=usual, pain=pain, **more)


@pytest.mark.parametrize(
    ("freed", "asked"),
    [
        (Freed(), Freed(lifts=0.75, fast=1.15, medium=1.15)),
        (Freed(lifts=0.8, fast=1.2, medium=1.1), Freed(lifts=0.6, fast=1.2, medium=1.15)),
    ],
)
def test_an_outcome_takes_from_the_lifts_what_tests_left_and_gives_jumps_no_more_than_either(
    freed: Freed, asked: Freed
) -> None:
    found = asked_after(freed, before(lifts=0.75, jumps=1.15))
    assert found.lifts == pytest.approx(asked.lifts)
    assert (found.fast, found.medium) == (asked.fast, asked.medium)
    assert asked_after(freed, None) == freed


def test_the_next_block_starts_from_the_usual_week_and_the_pain_of_the_last() -> None:
    """Of a joint that the file knows its history stays; other joints of the file stay as they are."""
    person = athlete(
        PLAYER, {"joints": [{"joint": "patellar-knee", "pain": 0, "history": "stiff"}, {"joint": "low-back"}]}
    )
    knee, hip = JointState(joint="patellar-knee", pain=2), JointState(joint="hip-groin", side="left", pain=1)
    left = as_left(person, before(knee, hip))
    assert left.recent_load is not None and left.recent_load.model_dump() == USUAL
    told = {(state.joint, state.side): (state.pain, state.history) for state in left.joints}
    assert told == {
        ("patellar-knee", None): (2, "stiff"),
        ("low-back", None): (0, None),
        ("hip-groin", "left"): (1, None),
    }
    assert as_left(person, before()).joints == person.joints


def test_pain_of_a_log_that_no_block_is_planned_over_is_told_of_the_log() -> None:
    shape = template("in-season-four-week")
    refuse_logged_pain([JointState(joint="patellar-knee", pain=1)], shape, "log.yaml", "log it")
    sore = [JointState(joint="patellar-knee", pain=1), JointState(joint="achilles-ankle", side="right", pain=8)]
    with pytest.raises(UserError) as refused:
        refuse_logged_pain(sore, shape, "log.yaml", "log it")
    (finding,) = refused.value.findings
    assert (finding.path, finding.line, finding.column, finding.code) == ("log.yaml", 0, 0, "pain")
    assert "pain 8 of 10 in the right Achilles and ankle" in finding.message


def test_pins_in_phases_and_weeks_that_the_template_lacks_are_refused_each_on_its_line() -> None:
    """The in-season template has the phases hold and test, and four weeks."""
    shape = template("in-season-four-week")
    fine = [{"movement": "pogo", "phases": ["hold", "test"]}, {"movement": "pogo", "weeks": [1, 4]}]
    refuse_unknown_phases(athlete(PLAYER, {"pins": fine}), shape)
    odd = [*fine, {"movement": "pogo", "phases": ["hold", "build"]}, {"movement": "pogo", "weeks": [4, 5]}]
    with pytest.raises(UserError) as refused:
        refuse_unknown_phases(athlete(PLAYER, {"pins": odd}), shape)
    told = [(one.line, one.column, one.keys, one.message.rpartition(" ")[2]) for one in refused.value.findings]
    assert told == [(0, 0, ("pins", 2), "build"), (0, 0, ("pins", 3), "5")]
