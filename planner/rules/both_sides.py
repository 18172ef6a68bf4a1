"""What one leg does, the other does too; a leg that tests weaker may get an extra set."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from planner.domain.movement import side_of
from planner.domain.terms import QUALITY_NAMES, Leg, Quality, Side
from planner.problem.model import Problem
from planner.rules.rule import Breach, CountedItem, CountedWeek, Plan, Row, Rule

LEGS_OF: dict[Side, str] = {"both": "both legs", "each": "each leg", "left": "the left leg", "right": "the right leg"}


class BothSides(Rule):
    id = "both-sides"
    title = "Both legs train alike, except an extra set"
    says = (
        "One-leg lifts, holds and hops are done on each leg; only approach jumps stay on the take-off leg. Where the "
        "coach asks for it (weaker_leg: extra-set) and a test of both legs finds one clearly weaker, beyond its error, "
        "that leg goes first in load weeks and gets an extra set of each one-leg lift or hold that trains the tested "
        "quality in full; joint stress and minutes count that set, budgets do not."
    )
    source = "common practice, no source"
    unit = "movements"

    def rows(self, problem: Problem) -> Iterator[Row]:
        """None: side and extra set follow from the movement."""
        yield from ()

    def audit(self, plan: Plan) -> Iterator[Breach]:
        for week, session, item in plan.working_items():
            side = side_of(item.movement, plan.problem.athlete.take_off)
            if item.item.side != side:
                sentence = f"{item.name} in {session.where} is prescribed for {LEGS_OF[item.item.side]}; it should be "
                sentence += f"done on {LEGS_OF[side]}"
                yield self.breach(session.at_item(item), sentence, 1)
            due, got = _due(plan, week, item), item.item.extra_set
            if got != due:
                sentence = f"{item.name} in {session.where} has {_extra(got)}; {_reason(plan, due)}"
                # Leaving one out on a sore day does no harm.
                yield replace(self.breach(session.at_item(item), sentence, 1), hard=got is not None)
        yield from self._without_one_leg_work(plan)

    def _without_one_leg_work(self, plan: Plan) -> Iterator[Breach]:
        """Load weeks without one-leg work to add a weaker leg's extra sets to."""
        for quality, leg in plan.problem.weaker_legs.items():
            bare = [week for week in plan.weeks if week.is_load and not any(_trains(i, quality) for i in week.items)]
            if bare:
                weeks = f"week {bare[0].number}" + (f" and {len(bare) - 1} more" if len(bare) > 1 else "")
                sentence = (
                    f"{weeks}: no one-leg work for {QUALITY_NAMES[quality]}, so no extra set for the weaker {leg} leg"
                )
                yield replace(self.breach(bare[0].at, sentence, len(bare)), hard=False)


def _due(plan: Plan, week: CountedWeek, item: CountedItem) -> Leg | None:
    """The leg that should get an extra set of this item: the one that tests weaker in what it trains in full."""
    one_leg_work = item.movement.legs == "one" and item.working_sets > 0
    if not (week.is_load and one_leg_work):
        return None
    trained = [quality for quality, tag in item.movement.qualities.items() if tag == 3]
    legs = {plan.problem.weaker_legs[quality] for quality in trained if quality in plan.problem.weaker_legs}
    return legs.pop() if len(legs) == 1 else None


def _extra(leg: Leg | None) -> str:
    return f"an extra set for the {leg} leg" if leg else "no extra set"


def _trains(item: CountedItem, quality: Quality) -> bool:
    return item.works and item.movement.legs == "one" and item.quality_sets(quality) >= item.working_sets > 0


def _reason(plan: Plan, due: Leg | None) -> str:
    if due is not None:
        return f"the {due} leg tests weaker and should get one"
    if plan.problem.athlete.weaker_leg == "extra-set":
        return "it should not: no test finds that leg weaker in what this trains in full, or it is not a load week"
    return "it should not: the athlete's file does not ask for one (weaker_leg: extra-set does)"
