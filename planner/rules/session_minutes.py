"""Every session fits its minutes."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from planner.domain.athlete import Athlete
from planner.domain.base import LONGEST_DAY_minutes
from planner.domain.template import Template
from planner.problem.model import Problem
from planner.problem.per_set import once_seconds, set_seconds
from planner.problem.variable import takes_key
from planner.rules.base import Address, Blamed, Breach, Keys, Loosening, Plan, Row, Rule, Step, Term
from planner.rules.places import DAY_NAMES, day_of, weeks_in_words
from planner.rules.wording import between, listed


class SessionMinutes(Rule):
    id = "session-minutes"
    title = "A session fits its minutes"
    says = (
        "Warm-up, ramp-up sets, working time and rests, the extra set of a weaker leg too, together stay within the "
        "day's minutes, own work left free."
    )
    source = "common practice, no source"
    unit = "minutes"
    row_units = 60
    field = ("training", "days")
    often_to_blame = True
    always_loosened = True
    loosened_in_the_file = True
    loosened_by_minutes = True

    def figures(self, template: Template) -> str:
        warm_ups = [shape.warm_up_minutes for shape in template.shapes]
        waves: dict[float, list[str]] = {}
        for name, scheme in template.schemes.items():
            if scheme.ramp_s:
                waves.setdefault(scheme.ramp_s / 60, []).append(name)
        ramps = [f"{minutes:g} for {listed(names)}" for minutes, names in waves.items()]
        ramp = f"; ramp-up sets, in minutes: {', '.join(ramps)}" if ramps else ""
        return f"Warm-up {between(min(warm_ups), max(warm_ups))} minutes, by the session's shape{ramp}."

    def rows(self, problem: Problem) -> Iterator[Row]:
        for week in problem.weeks:
            for slot in problem.slots:
                if slot.number not in problem.slots_of(week) or (week, slot.number) in problem.away:
                    continue
                if problem.is_test_day(week, slot.number):
                    continue
                terms: list[Term] = problem.session_terms(week, slot.number, set_seconds)
                terms += problem.once_terms(week, slot.number, once_seconds)
                warm_up_s = 0
                if week == problem.last_week:
                    shape = problem.test_week_shapes.get(slot.number)
                    warm_up_s = 60 * shape.warm_up_minutes if shape else 0
                else:
                    terms += [(60 * s.warm_up_minutes, takes_key(slot.number, s.id)) for s in problem.shapes]
                yield self.row(Address(week=week, slot=slot.number), terms, high=60 * slot.gym_minutes - warm_up_s)

    def blamed(self, part: Blamed) -> Iterator[tuple[Keys, str]]:
        """Each day's minutes, and what a session there takes at least where that is known."""
        needs = {step.at.slot: step.amount for step in part.needs}
        days = [day.day for day in part.problem.athlete.training.days]
        for slot in part.problem.slots:
            weeks = [row.at for row in part.rows if row.at.slot == slot.number]
            if not weeks:
                continue
            said = f"{DAY_NAMES[slot.day]} has {slot.gym_minutes} min for it, {weeks_in_words(weeks)}"
            if slot.number in needs:
                least = slot.gym_minutes + needs[slot.number]
                said += f"; the shortest session that the template has there takes {least} min"
            yield (*self.field, days.index(slot.day)), f"{self.title}: {said}"

    def loosenings(self, problem: Problem, row: Row) -> Iterator[Loosening]:
        at = Address(slot=row.at.slot)
        yield Loosening(self.id, at, self.row_units, problem.template.changes.minute, LONGEST_DAY_minutes)

    def changed(self, problem: Problem, athlete: Athlete, steps: Sequence[Step]) -> Athlete:
        longer = {day_of(problem, step.at.slot): step.amount for step in steps}
        training = athlete.training
        days = tuple(day.model_copy(update={"minutes": day.minutes + longer.get(day.day, 0)}) for day in training.days)
        return athlete.model_copy(update={"training": training.model_copy(update={"days": days})})

    def change_in_words(self, steps: Sequence[Step], problem: Problem) -> str:
        first, *rest = [(step.amount, DAY_NAMES[day_of(problem, step.at.slot)]) for step in steps]
        more = "more minute" if first[0] == 1 else "more minutes"
        return listed([f"{first[0]} {more} on {first[1]}", *[f"{minutes} on {day}" for minutes, day in rest]])

    def audit(self, plan: Plan) -> Iterator[Breach]:
        gym_minutes = {slot.number: slot.gym_minutes for slot in plan.problem.slots}
        minutes_on = {date: gym_minutes[slot] for (_, slot), date in plan.problem.dates.items()}
        for week in plan.weeks:
            for session in week.sessions:
                if session.is_test:
                    continue
                needed = counted_minutes(plan, session.session.id)
                there = minutes_on.get(session.date, 0)  # none on a date that is no training day
                if needed > there:
                    sentence = f"{session.where} takes {math.ceil(needed)} min; the day has {there} min for it"
                    yield self.breach(session.at, sentence, needed - there)


def counted_minutes(plan: Plan, session_id: str) -> float:
    """Minutes of a session counted from its items: warm-up, ramp-up sets, then work of every side and rest.

    An extra set is one more of one side.
    """
    session = next(s for w in plan.weeks for s in w.sessions if s.session.id == session_id)
    total_s = 60.0 * session.session.warm_up_minutes
    for counted in session.items:
        dose = counted.movement.dose
        if not counted.works or counted.is_test:
            continue
        work_s = dose.set_time * (2 if counted.item.side == "each" and counted.movement.legs == "one" else 1)
        scheme = plan.problem.template.schemes.get(dose.scheme)
        total_s += counted.item.sets * (work_s + dose.rest) + (scheme.ramp_s if scheme else 0)
        total_s += dose.set_time + dose.rest if counted.item.extra_set else 0
    return total_s / 60
