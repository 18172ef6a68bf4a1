"""Every session fits the minutes of its day."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from planner.domain.athlete import Athlete
from planner.domain.base import LONGEST_DAY_minutes
from planner.domain.template import Template
from planner.problem.model import Problem
from planner.problem.per_set import once_seconds, set_seconds
from planner.problem.retest import least_test_seconds, test_warm_up_minutes
from planner.problem.variable import takes_key
from planner.rules.figure_words import between, listed
from planner.rules.places import DAY_NAMES, day_of, weeks_in_words
from planner.rules.rule import Address, Blamed, Breach, CountedSession, Keys, Loosening, Plan, Row, Rule, Step, Term


def session_seconds(problem: Problem, week: int, slot: int) -> list[Term]:
    """What a session takes; its warm-up too before the test week, where the day's shape is still to be chosen."""
    terms = problem.session_terms(week, slot, set_seconds) + problem.once_terms(week, slot, once_seconds)
    if week < problem.last_week:
        terms += [(60 * shape.warm_up_minutes, takes_key(slot, shape.id)) for shape in problem.shapes]
    return terms


class SessionMinutes(Rule):
    id = "session-minutes"
    title = "A session fits its minutes"
    says = (
        "Warm-up, ramp-up sets, working time, rests and a weaker leg's extra set together fit in the day's minutes, "
        "less those kept for the athlete's own work."
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
        minutes = {slot.number: slot.gym_minutes for slot in problem.slots}
        for week, slot in problem.programmed_days():
            warm_up = 0
            if week == problem.last_week and slot in problem.test_week_shapes:
                warm_up = problem.test_week_shapes[slot].warm_up_minutes
            terms = session_seconds(problem, week, slot)
            yield self.row(Address(week=week, slot=slot), terms, high=60 * (minutes[slot] - warm_up))
        yield from self._test(problem, minutes[problem.test_slot])

    def _test(self, problem: Problem, minutes: int) -> Iterator[Row]:
        """The closing test has fixed sets: a row only where its day is too short for them."""
        week, slot = problem.last_week, problem.test_slot
        terms = problem.session_terms(week, slot, set_seconds)
        if least_test_seconds(problem.template) > 60 * minutes:
            for_jumps_s = 60 * (minutes - test_warm_up_minutes(problem.template))
            yield self.row(Address(week=week, slot=slot), terms, high=for_jumps_s)

    def blamed(self, part: Blamed) -> Iterator[tuple[Keys, str]]:
        """Each day's minutes, and the shortest session there if that is known."""
        needs = {step.at.slot: step.amount for step in part.needs}
        days = [day.day for day in part.problem.athlete.training.days]
        for slot in part.problem.slots:
            weeks = [row.at for row in part.rows if row.at.slot == slot.number]
            if not weeks:
                continue
            said = f"{DAY_NAMES[slot.day]} has {slot.gym_minutes} min for training, {weeks_in_words(weeks)}"
            if slot.number in needs:
                least = slot.gym_minutes + needs[slot.number]
                said += f"; the template's shortest session there takes {least} min"
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
        for session in plan.sessions:
            needed = counted_minutes(plan.problem, session)
            if session.is_test and session.date not in minutes_on:  # a coach may test on any day
                continue
            there = minutes_on.get(session.date, 0)  # a day without training has none
            if needed > there:
                sentence = f"{session.where} takes {math.ceil(needed)} min; the day has {there} min for it"
                yield self.breach(session.at, sentence, needed - there)


def counted_minutes(problem: Problem, session: CountedSession) -> float:
    """Minutes of a session, from its items: warm-up, ramp-up sets, work of each side and rests; an extra set has one
    side. A jump of the closing test takes what the template says."""
    total_s = 60.0 * session.session.warm_up_minutes
    test = problem.template.test_day
    for counted in session.items:
        dose = counted.movement.dose
        if not counted.works:
            continue
        if counted.is_test:
            total_s += counted.item.sets * (test.jump_s + test.rest_s)
            continue
        work_s = dose.set_time * (2 if counted.item.side == "each" and counted.movement.legs == "one" else 1)
        scheme = problem.template.schemes.get(dose.scheme)
        in_warm_up = counted.movement.jump is not None  # the printed warm-up holds the jumps that build up
        total_s += counted.item.sets * (work_s + dose.rest) + (scheme.ramp_s if scheme and not in_warm_up else 0)
        total_s += dose.set_time + dose.rest if counted.item.extra_set else 0
    return total_s / 60
