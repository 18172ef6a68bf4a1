"""A movement stays through its phase, with the sets that its wave allows."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.template import Template
from planner.problem.model import Problem
from planner.problem.training_days import Phase
from planner.problem.variable import in_key
from planner.rules.figure_words import between, counted, listed
from planner.rules.rule import Address, Breach, Plan, Row, Rule, Term


class Continuity(Rule):
    id = "continuity"
    title = "A movement stays through its phase"
    says = (
        "A movement chosen for a day stays on that day in every week of the phase, with the sets of its planned "
        "progression, so that load can rise. A week whose date bars it (away, a match) leaves it out and says why."
    )
    source = "common practice, no source"
    structural = True
    unit = "sets"

    def figures(self, template: Template) -> str:
        phases: dict[str, list[int]] = {}
        for number, week in enumerate(template.weeks, start=1):
            phases.setdefault(week.phase, []).append(number)
        spans = [
            f"{name} ({'week' if len(weeks) == 1 else 'weeks'} {between(weeks[0], weeks[-1])})"
            for name, weeks in phases.items()
        ]
        waves: dict[str, list[str]] = {}
        for name, scheme in template.schemes.items():
            sets = [week.sets for week in scheme.weeks if week.sets[1]]
            if sets:
                waves.setdefault(between(min(s[0] for s in sets), max(s[1] for s in sets)), []).append(name)
        held = [f"{sets} for {listed(names)}" for sets, names in waves.items()]
        return f"Phases {listed(spans)}. Sets in a session, by planned progression: {'; '.join(held)}."

    def rows(self, problem: Problem) -> Iterator[Row]:
        entries = {(week, e.slot, e.movement.id): e for week in problem.weeks for e in problem.week_entries(week)}
        weeks_of = {phase.id: phase.weeks for phase in problem.phases}
        pieces = {phase.id for phase in problem.phases if phase.id != phase.name}
        for phase, slot, movement in problem.choices:
            chosen = in_key(phase, slot, movement)
            done: list[Term] = [(-1, chosen)]
            for week in weeks_of[phase]:
                entry = entries[week, slot, movement]
                dose = entry.dosage
                at = Address(week=week, slot=slot, movement=movement)
                yield self.row(at, [(1, entry.key), (-dose.high_sets, chosen)], high=0)
                if dose.low_sets and entry.barred is None:
                    yield self.row(at, [(1, entry.key), (-dose.low_sets, chosen)], low=0)
                done.append((1, entry.key))
            # A piece may be a single week, with a match that bars what the rest of its phase has on that day.
            barred = (entries[w, slot, movement].barred and (w, slot) not in problem.away for w in weeks_of[phase])
            if phase in pieces and all(barred):
                continue
            yield self.row(Address(phase=phase, slot=slot, movement=movement), done, low=0)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        for phase in plan.problem.phases:
            for day in range(7):
                yield from self._audit_day(plan, phase, day)

    def _audit_day(self, plan: Plan, phase: Phase, day: int) -> Iterator[Breach]:
        sets: dict[str, dict[int, int]] = {}
        names: dict[str, str] = {}
        for number in phase.weeks:
            for session in plan.week(number).sessions:
                if session.date.weekday() != day or session.is_test:
                    continue
                for item in session.items:
                    sets.setdefault(item.movement.id, {})[number] = item.item.sets
                    names[item.movement.id] = item.name
        for movement, by_week in sets.items():
            scheme = plan.problem.template.schemes.get(plan.problem.library[movement].dose.scheme)
            for number in phase.weeks:
                least, most = scheme.weeks[number - 1].sets if scheme else (0, 0)
                done = by_week.get(number, 0)
                barred = _is_barred(plan, number, day, movement) or _is_light(plan, number, day)
                if done > most or (done < least and not barred):
                    sentence = (
                        f"week {number}: {names[movement]} has {counted(done, 'set')}; its planned progression has "
                    )
                    sentence += f"{least} to {most} in every week of the phase '{phase.name}'"
                    at = Address(week=number, slot=_slot(plan, number, day), movement=movement)
                    yield self.breach(at, sentence, max(least - done, done - most))


def _slot(plan: Plan, week: int, day: int) -> int | None:
    """The week's training day on the weekday, if the athlete trains on it."""
    days = plan.problem.slots_of(week)
    return next((slot for slot in days if plan.problem.dates[week, slot].weekday() == day), None)


def _is_light(plan: Plan, week: int, day: int) -> bool:
    """Whether the day is a first one back after days lost, where less than the wave's least is allowed."""
    light = plan.problem.light
    return week in plan.problem.easy_weeks or (light is not None and light == (week, _slot(plan, week, day)))


def _is_barred(plan: Plan, week: int, day: int, movement: str) -> bool:
    there = (e for e in plan.problem.week_entries(week) if plan.problem.dates[week, e.slot].weekday() == day)
    return any(e.barred and e.movement.id == movement for e in there)
