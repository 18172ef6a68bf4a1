"""The day before jumps on fresh legs has little one-leg strength."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.movement import Movement
from planner.domain.template import Shape, Template
from planner.domain.terms import TIERS
from planner.problem.model import Problem
from planner.problem.training_days import ONE_DAY
from planner.problem.variable import takes_key
from planner.rules.figure_words import counted
from planner.rules.rule import Address, Breach, Plan, Row, Rule, Term

MOST_SETS = 100  # above what any session could hold: the slack of a day before one without jumps


class FreshLegs(Rule):
    id = "fresh-legs"
    title = "Fresh legs for a jump day"
    says = "The day before a session with jumps above the low tier has few sets of one-leg lifts."
    source = "common practice, no source"
    unit = "sets"
    field = ("training", "days")
    spans_two_days = True
    moving_days_may_help = True

    def figures(self, template: Template) -> str:
        asked = template.recovery
        return f"At most {counted(asked.one_leg_sets_before_jumps, 'set')}." if asked else ""

    def rows(self, problem: Problem) -> Iterator[Row]:
        asked = problem.template.recovery
        if asked is None:
            return
        days = {problem.dates[key]: key for key in problem.programmed_days()}
        for date, (week, slot) in days.items():
            after = days.get(date + ONE_DAY)
            terms: list[Term] = [(1, e.key) for e in problem.entries[week, slot] if _tires(e.movement)]
            if after is None or not terms:
                continue
            at, other = Address(week=week, slot=slot), Address(week=after[0], slot=after[1])
            if after[0] == problem.last_week:
                shape = problem.test_week_shapes.get(after[1])
                if shape is not None and _wants_fresh_legs(shape):
                    yield self.row(at, terms, high=asked.one_leg_sets_before_jumps, other=other)
                continue
            for shape in {shape.id: shape for shape in problem.shapes if _wants_fresh_legs(shape)}.values():
                taken = (MOST_SETS, takes_key(after[1], shape.id))
                most = asked.one_leg_sets_before_jumps + MOST_SETS
                yield self.row(at._replace(of=shape.id), [*terms, taken], high=most, other=other)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        asked = plan.problem.template.recovery
        if asked is None:
            return
        fresh = {shape.id for shape in plan.problem.template.shapes if _wants_fresh_legs(shape)}
        held = {session.date: session for session in plan.sessions if not session.is_test}
        for date, session in held.items():
            before = held.get(date - ONE_DAY)
            if before is None or session.session.focus not in fresh:
                continue
            done = sum(item.item.sets for item in before.items if _tires(item.movement))
            if done > asked.one_leg_sets_before_jumps:
                sentence = f"{before.where} has {done} sets of one-leg lifts the day before the jumps of "
                sentence += f"{session.where}; at most {asked.one_leg_sets_before_jumps}"
                yield self.breach(before.at, sentence, done - asked.one_leg_sets_before_jumps)


def _wants_fresh_legs(shape: Shape) -> bool:
    return shape.highest_tier != TIERS[0]


def _tires(movement: Movement) -> bool:
    return movement.part == "one-leg" and movement.kind == "lift"
