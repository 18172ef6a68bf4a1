"""Maximal run-up jumps are built up to, runs fit the floor, and a novice's card says when the next load comes."""

from __future__ import annotations

import pytest

from planner.domain.block import AthleteLine, Session
from planner.prescription.item_words import prescribe
from planner.prescription.session_words import next_load_line
from planner.prescription.warm_up import warm_up_line
from tests.solve.demos import solved

from .invented_block import block, item, layout, session
from .reading import cards

LAYOUT = layout()
ATHLETE = block().for_athlete
WEEK = block().weeks[0]


def on_floor(runway_m: float | None) -> AthleteLine:
    return ATHLETE.model_copy(update={"runway_m": runway_m})


def jumping(part: str = "approach-jump", tier: str = "high", minutes: int = 15) -> Session:
    return session(1, 1, [item(part, "run-up jump", 4, 1, tier=tier, contacts=4)], warm_up_minutes=minutes)


def test_maximal_run_up_jumps_come_after_three_that_build_up() -> None:
    """They are on the card, and counted; so the warm-up does not ask for them again."""
    assert "two runs over" in warm_up_line(jumping(), on_floor(30), LAYOUT)
    assert "%" not in warm_up_line(jumping(), on_floor(30), LAYOUT)
    full = ("full-approach-jump-one-leg", "short-run-jump-one-leg")
    days = [s.items for week in solved("adult").block.weeks for s in week.sessions]
    before = [items[at - 1] for items in days for at, one in enumerate(items) if one.movement in full and one.sets]
    assert before and all(one.movement == "build-up-jumps-one-leg" and one.contacts == 3 for one in before)


def test_a_layout_of_an_earlier_release_warms_up_as_for_jumps() -> None:
    older = LAYOUT.model_copy(update={"before_run_up_jumps": ()})
    assert "three jumps, each a little higher" in warm_up_line(jumping(minutes=10), on_floor(30), older)


@pytest.mark.parametrize(
    ("runway_m", "said"),
    [(60, "over 40 m"), (50, "over 40 m"), (30, "over 20 m"), (27, "over 15 m"), (None, "over 40 m"), (12, "spot")],
)
def test_a_run_ends_before_the_floor_does(runway_m: float | None, said: str) -> None:
    """Ten metres are left to slow down; a block of an earlier release does not know its floor."""
    sprints = session(1, 1, [item("sprint", "Start", 4, 1, distance_m=10)], warm_up_minutes=11)
    assert said in warm_up_line(sprints, on_floor(runway_m), LAYOUT)


def test_a_primer_has_short_runs_and_jumps_below_the_maximum() -> None:
    primer = jumping("landing", "low", 12).model_copy(update={"focus": "primer"})
    said = warm_up_line(primer, on_floor(30), LAYOUT)
    assert "two runs over 15 m" in said and "80 to 90 %" in said
    assert "spot" in warm_up_line(primer, on_floor(15), LAYOUT)


def lifting(**changes: object) -> Session:
    return session(1, 1, [item("main-lift", "Squat", 3, 8, **changes)])


@pytest.mark.parametrize(
    ("level", "role", "load_kg", "is_said"),
    [
        ("novice", "build", 20.0, True),
        ("novice", "deload", 20.0, False),
        ("intermediate", "build", 20.0, False),
        ("novice", "build", None, False),
    ],
)
def test_a_novice_is_told_when_the_next_load_comes(level: str, role: str, load_kg: float | None, is_said: bool) -> None:
    athlete = ATHLETE.model_copy(update={"level": level})
    week = WEEK.model_copy(update={"role": role})
    said = next_load_line(week, lifting(load_kg=load_kg), athlete, LAYOUT)
    assert said == (LAYOUT.words.when_next_load if is_said else "")
    weeks = (week.model_copy(update={"sessions": (lifting(load_kg=load_kg),)}),)
    [card] = cards(block().model_copy(update={"weeks": weeks, "for_athlete": athlete}), LAYOUT, week=1).pages
    assert (LAYOUT.words.next_load in card) == is_said


def test_a_percentage_of_body_and_load_says_so() -> None:
    alone, together = (
        prescribe(
            item("one-leg", "Split squat", 3, 8, load_kg=20.0, percent=72.5, percent_with_body=told), ATHLETE, LAYOUT
        )
        for told in (False, True)
    )
    assert "72.5 % of this lift's max" in alone.details
    assert "72.5 % of this lift's max of body and load" in together.details
