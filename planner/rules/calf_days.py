"""The calf is not loaded on two days running."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from planner.domain.movement import Movement
from planner.domain.template import Template
from planner.problem.model import Problem
from planner.problem.variable import in_key
from planner.rules.days_between import Day, close_days
from planner.rules.figure_words import counted
from planner.rules.rule import Address, Breach, Plan, Row, Rule, Term


class CalfDays(Rule):
    id = "calf-days"
    title = "The calf rests a day"
    says = "Loaded calf raises keep the template's days apart."
    source = "common practice, no source"
    unit = "days"
    field = ("training", "days")
    spans_two_days = True
    moving_days_may_help = True

    def figures(self, template: Template) -> str:
        return f"{counted(template.recovery.calf_days_apart, 'day')} apart." if template.recovery else ""

    def rows(self, problem: Problem) -> Iterator[Row]:
        if problem.template.recovery is None:
            return
        raises: dict[Day, list[Term]] = {}
        for phase, slot, movement in problem.choices:
            if _loads_calf(problem.library[movement]):
                raises.setdefault((phase, slot), []).append((1, in_key(phase, slot, movement)))
        for one, other in close_days(problem, problem.template.recovery.calf_days_apart):
            later = raises.get(other, [])
            for _, chosen in raises.get(one, []):
                if later:
                    terms = [(len(later), chosen), *later]
                    yield self.row(chosen.at, terms, high=len(later), other=Address(phase=other[0], slot=other[1]))

    def audit(self, plan: Plan) -> Iterator[Breach]:
        if plan.problem.template.recovery is None:
            return
        apart = plan.problem.template.recovery.calf_days_apart
        loaded = [s for s in plan.sessions if any(item.works and _loads_calf(item.movement) for item in s.items)]
        for before, after in pairwise(loaded):
            days = (after.date - before.date).days
            if days < apart:
                sentence = f"{before.where} and {after.where} both load the calf, {counted(days, 'day')} apart; "
                sentence += f"they need {apart}"
                yield self.breach(after.at, sentence, apart - days)


def _loads_calf(movement: Movement) -> bool:
    return movement.part == "calf" and movement.kind == "lift" and movement.dose.load != "none"
