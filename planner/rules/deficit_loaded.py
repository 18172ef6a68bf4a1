"""What a test finds short is trained with a load: few of its sets are done with the body alone or as unloaded holds."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from pydantic import Field

from planner.domain.movement import Movement
from planner.domain.template import Template
from planner.domain.template_prices import Weight
from planner.domain.terms import QUALITY_NAMES, Quality
from planner.problem.loads import prescribe
from planner.problem.model import Entry, Problem
from planner.rules.own_limits import OwnLimits
from planner.rules.rule import Address, Breach, CountedItem, Plan, Row, Rule, Term

TWELFTHS = 12  # of a set: one set in two, three, four or six is whole in them
BODY_WEIGHT = "body weight"  # how a card's note begins where the load that would fit is none
EPSILON_sets = 1e-9


class DeficitLimits(OwnLimits):
    rule = "deficit-loaded"

    unloaded_one_in: Literal[2, 3, 4, 6] = Field(description="At most one set in this many is done without a load.")
    twelfth_over: Weight = Field(description="Points for a twelfth of a set more.")


class DeficitLoaded(Rule):
    id = "deficit-loaded"
    title = "Sets for a short quality are loaded"
    says = (
        "In load weeks, few sets of a quality that tests short are done without a load, holds included; counted are "
        "the movements that train it first of all. For athletes beyond novice whose gym has loads, youth "
        "only with a tested lift, and not where the joint that the quality loads hurts."
    )
    source = "common practice, no source"
    unit = "sets"
    hard = False
    row_units = TWELFTHS

    def figures(self, template: Template) -> str:
        limits = DeficitLimits.of(template)
        return f"At most one set in {limits.unloaded_one_in} without a load." if limits else ""

    def price(self, template: Template) -> dict[str, int]:
        limits = DeficitLimits.of(template)
        return {"set": TWELFTHS * limits.twelfth_over} if limits else {}

    def rows(self, problem: Problem) -> Iterator[Row]:
        limits = DeficitLimits.of(problem.template)
        if limits is None:
            return
        allowed = TWELFTHS // limits.unloaded_one_in
        for week in problem.load_weeks:
            for quality in _short(problem):
                terms: list[Term] = [
                    (-allowed if _is_loaded(problem, entry) else TWELFTHS - allowed, entry.key)
                    for entry in problem.week_entries(week)
                    if entry.dosage.is_working_set and entry.movement.qualities.get(quality, 0) == 3
                ]
                yield self.row(Address(week=week, of=quality), terms, high=0, price=limits.twelfth_over)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        limits = DeficitLimits.of(plan.problem.template)
        if limits is None:
            return
        for week in plan.weeks:
            for quality in _short(plan.problem) if week.is_load else ():
                items = [item for item in week.items if item.movement.qualities.get(quality, 0) == 3]
                sets = sum(item.working_sets for item in items)
                unloaded = sum(item.working_sets for item in items if not _was_loaded(item))
                over = unloaded - sets / limits.unloaded_one_in
                if over > EPSILON_sets:
                    sentence = f"week {week.number}: {unloaded} of {sets} sets for {QUALITY_NAMES[quality]} "
                    sentence += f"are done without a load; at most one in {limits.unloaded_one_in}"
                    yield self.breach(Address(week=week.number, of=quality), sentence, over)


def _short(problem: Problem) -> list[Quality]:
    """The qualities that the emphasis raises because they test short, for those who can load them."""
    gym, athlete = problem.athlete.equipment, problem.athlete
    lifts = athlete.level != "novice" and (problem.one_rm_kg or not problem.youth)
    if not lifts or (gym.bar is None and not gym.dumbbells):
        return []
    return problem.short_qualities


def _takes_load(movement: Movement) -> bool:
    """Whether it is loaded, if only with a little, or pushed against a bar that does not move."""
    against_a_bar = movement.kind == "hold" and "rack" in movement.equipment
    return movement.dose.load != "none" or against_a_bar


def _is_loaded(problem: Problem, entry: Entry) -> bool:
    note = (
        prescribe(problem, entry.movement, entry.dosage, entry.week).note
        if _takes_load(entry.movement)
        else BODY_WEIGHT
    )
    return not (note or "").startswith(BODY_WEIGHT)


def _was_loaded(item: CountedItem) -> bool:
    return _takes_load(item.movement) and not (item.item.note or "").startswith(BODY_WEIGHT)
