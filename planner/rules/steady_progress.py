"""From one load week of a phase to the next, a movement's sets hold or rise a little."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from planner.domain.template import Template
from planner.domain.terms import LOAD_ROLES
from planner.problem.model import Entry, Problem
from planner.rules.figure_words import counted
from planner.rules.rule import Address, Breach, Plan, Row, Rule


class SteadyProgress(Rule):
    id = "steady-progress"
    title = "Sets hold or rise through a phase"
    says = (
        "Between load weeks of a phase, a lift's sets hold or rise a little; sets of jumps and sprints, which may be "
        "single efforts, rise by a few at most."
    )
    source = "common practice, no source"
    unit = "sets"

    def figures(self, template: Template) -> str:
        rise = template.steady_progress
        lifts = f"{counted(rise.more_sets, 'set')} of a lift or hold"
        return f"Up by at most {lifts}, {rise.more_efforts} of jumps or sprints."

    def rows(self, problem: Problem) -> Iterator[Row]:
        rise = problem.template.steady_progress
        weeks_of = {phase.id: phase.weeks for phase in problem.phases}
        entries = {(week, e.slot, e.movement.id): e for week in problem.weeks for e in problem.week_entries(week)}
        for phase, slot, movement in problem.choices:
            done = [e for w in weeks_of[phase] if _counts(problem, e := entries[w, slot, movement])]
            for before, after in pairwise(done):
                most = rise.more_sets if after.dosage.is_working_set else rise.more_efforts
                at = Address(week=after.week, slot=slot, movement=movement)
                other = Address(week=before.week)
                yield self.row(at, [(1, after.key), (-1, before.key)], low=0, high=most, other=other)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        rise = plan.problem.template.steady_progress
        for phase in plan.problem.phases:
            last: dict[tuple[int, str], tuple[int, int]] = {}  # week and sets
            load_weeks = [week for number in phase.weeks if (week := plan.week(number)).is_load]
            done = [(w.number, s, i) for w in load_weeks for s in w.sessions for i in s.items if i.works]
            for number, session, item in done:
                key = (session.date.weekday(), item.movement.id)
                earlier, before = last.get(key, (number, item.item.sets))
                most = rise.more_sets if item.working_sets else rise.more_efforts
                if not 0 <= item.item.sets - before <= most:
                    sentence = f"{item.name} goes from {counted(before, 'set')} in week {earlier} to "
                    sentence += f"{item.item.sets} in week {number}; sets hold or rise by at most {most} within a phase"
                    yield self.breach(session.at_item(item), sentence, 1)
                last[key] = (number, item.item.sets)


def _counts(problem: Problem, entry: Entry) -> bool:
    return problem.role(entry.week) in LOAD_ROLES and entry.barred is None
