"""Every session fits its minutes."""

from __future__ import annotations

import math
from collections.abc import Iterator

from planner.domain.template import Template
from planner.problem.model import Problem, takes_key
from planner.problem.per_set import once_seconds, set_seconds
from planner.rules.base import Breach, Plan, Row, Rule, Term
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
                if problem.is_test_day(week, slot.number) or (week, slot.number) in problem.away:
                    continue
                terms: list[Term] = problem.session_terms(week, slot.number, set_seconds)
                terms += problem.once_terms(week, slot.number, once_seconds)
                warm_up_s = 0
                if week == problem.last_week:
                    shape = problem.test_week_shapes.get(slot.number)
                    warm_up_s = 60 * shape.warm_up_minutes if shape else 0
                else:
                    terms += [(60 * s.warm_up_minutes, takes_key(slot.number, s.id)) for s in problem.shapes]
                yield self.row(f"w{week}/d{slot.number}", terms, high=60 * slot.gym_minutes - warm_up_s)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        minutes_of = {slot.day: slot.gym_minutes for slot in plan.problem.slots}
        days = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
        for week in plan.weeks:
            for session in week.sessions:
                if session.is_test:
                    continue
                needed = counted_minutes(plan, session.session.id)
                there = minutes_of.get(days[session.date.weekday()], 0)  # type: ignore[call-overload]
                if needed > there:
                    sentence = f"{session.where} takes {math.ceil(needed)} min; the day has {there} min for it"
                    yield self.breach(session.where, sentence, needed - there)


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
