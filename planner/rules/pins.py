"""The movements that the coach wants are in the block."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from planner.domain.athlete import Athlete, Pin
from planner.domain.terms import DAYS
from planner.problem.model import Problem
from planner.problem.training_days import Phase
from planner.problem.variable import in_key
from planner.rules.figure_words import listed
from planner.rules.places import DAY_NAMES
from planner.rules.rule import Address, Blamed, Breach, Keys, Loosening, Plan, Row, Rule, Step


class Pins(Rule):
    id = "pins"
    title = "Pinned movements are in the block"
    says = (
        "A movement in the athlete's pins is in every phase but the last, or in the phases and weeks that the pin "
        "names, on the pinned day if one is named."
    )
    source = "the athlete's file"
    unit = "movements"
    field = ("pins",)
    often_to_blame = True
    loosened_in_the_file = True

    def rows(self, problem: Problem) -> Iterator[Row]:
        for index, pin in enumerate(problem.athlete.pins):
            for phase in _phases(problem, pin):
                days = [s.number for s in problem.slots if s.number in phase.slots and pin.day in (None, s.day)]
                terms = [(1, in_key(phase.id, day, pin.movement)) for day in days]
                yield self.row(Address(phase=phase.id, entry=index, movement=pin.movement), terms, low=1)

    def blamed(self, part: Blamed) -> Iterator[tuple[Keys, str]]:
        numbers = list(dict.fromkeys(row.at.entry or 0 for row in part.rows))
        for number in numbers:
            pin = part.problem.athlete.pins[number]
            day = f" on {DAY_NAMES[pin.day]}" if pin.day else ""
            said = f"{part.problem.library[pin.movement].name} is pinned{day}"
            if part.alone:
                what = "it there" if len(numbers) == 1 else "all of these together"
                said += f", and no session of the template can hold {what}"
            yield (*self.field, number), f"{self.title}: {said}"

    def loosenings(self, problem: Problem, row: Row) -> Iterator[Loosening]:
        yield Loosening(self.id, Address(entry=row.at.entry), 1, problem.template.changes.pin)

    def changed(self, problem: Problem, athlete: Athlete, steps: Sequence[Step]) -> Athlete:
        out = {step.at.entry for step in steps}
        pins = tuple(pin for number, pin in enumerate(athlete.pins) if number not in out)
        return athlete.model_copy(update={"pins": pins})

    def change_in_words(self, steps: Sequence[Step], problem: Problem) -> str:
        pins = [problem.athlete.pins[step.at.entry or 0] for step in steps]
        return f"remove the pin of {listed(problem.library[pin.movement].name for pin in pins)}"

    def audit(self, plan: Plan) -> Iterator[Breach]:
        for pin in plan.problem.athlete.pins:
            for phase in _phases(plan.problem, pin):
                sessions = [session for number in phase.weeks for session in plan.week(number).sessions]
                there = [s for s in sessions if pin.day in (None, DAYS[s.date.weekday()])]
                if not any(item.movement.id == pin.movement for session in there for item in session.items):
                    at, day = Address(phase=phase.id, movement=pin.movement), f" on {pin.day}" if pin.day else ""
                    sentence = f"{pin.movement} is pinned{day} and missing from the phase '{phase.name}'"
                    yield self.breach(at, sentence, 1)


def _phases(problem: Problem, pin: Pin) -> list[Phase]:
    """Phases that the pin asks for and in which the movement's wave has sets, without the test week."""
    entries = {(e.week, e.movement.id): e for w in problem.weeks for e in problem.week_entries(w)}
    return [
        phase
        for phase in problem.phases
        if problem.last_week not in phase.weeks
        and (not pin.phases or phase.name in pin.phases)
        and (not pin.weeks or set(pin.weeks) & set(phase.weeks))
        and any((w, pin.movement) in entries and entries[w, pin.movement].dosage.high_sets for w in phase.weeks)
    ]
