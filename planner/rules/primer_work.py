"""The primer before the test wakes what the test asks for: springs, a short sprint, the run-up."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from planner.domain.movement import Movement
from planner.domain.template import Template
from planner.estimate.words import words_of
from planner.problem.model import Problem
from planner.problem.primer import bar_on
from planner.rules.figure_words import counted, listed
from planner.rules.open_movements import is_open
from planner.rules.rule import Address, Breach, Plan, Row, Rule
from planner.rules.session_shape import home


@dataclass(frozen=True)
class PrimerNeed:
    """One kind of work of a primer: what it is called, how much, of which movements, and what a unit short costs."""

    what: str
    least: int
    price: int
    counts: Callable[[Movement], bool]


class PrimerWorkRule(Rule):
    id = "primer-work"
    title = "The primer wakes the jump"
    says = (
        "The primer before the test has ankle bounces, short sprints and, for a target off a run-up, easy jumps off "
        "it, each as far as it is open to the athlete on that day."
    )
    source = "common practice, no source"
    unit = "contacts or sprints"
    hard = False

    def figures(self, template: Template) -> str:
        if template.build_up is None:
            return ""
        asked = template.build_up.primer
        bounces = f"{counted(asked.contacts, 'contact')} of {listed(asked.families)}"
        return (
            f"At least {bounces}; {counted(asked.sprints, 'sprint')} of at most "
            f"{asked.sprint_m:g} m and {counted(asked.run_up_jumps, 'jump')} off the run-up."
        )

    def price(self, template: Template) -> dict[str, int]:
        return {"contact": template.prices.target_jump, "sprint": template.prices.sprint}

    def rows(self, problem: Problem) -> Iterator[Row]:
        week = problem.last_week
        for slot in _primers(problem):
            for number, asked in enumerate(_work(problem, slot)):
                entries = [e for e in problem.entries[week, slot] if asked.counts(e.movement)]
                terms = [(e.dosage.contacts or e.dosage.sprints, e.key) for e in entries]
                at = Address(week=week, slot=slot, entry=number)
                yield self.row(at, terms, low=asked.least, price=asked.price)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        problem = plan.problem
        sessions = {session.date: session for session in plan.week(problem.last_week).sessions}
        for slot in _primers(problem):
            date = problem.dates[problem.last_week, slot]
            session = sessions.get(date)
            where = f"{date:%a %d %b} (no session)" if session is None else session.where
            for number, asked in enumerate(_work(problem, slot)):
                items = [item for item in session.items if asked.counts(item.movement)] if session else []
                done = sum(item.item.contacts or item.sprint_efforts for item in items)
                if done < asked.least:
                    sentence = f"{where}: {done} of at least {asked.least} {asked.what}"
                    at = Address(week=problem.last_week, slot=slot, entry=number)
                    yield self.breach(at, sentence, asked.least - done)


def _primers(problem: Problem) -> list[int]:
    """The days of the test week whose shape is a primer's, if the template says what one holds."""
    if problem.template.build_up is None:
        return []
    return [slot for slot, shape in problem.test_week_shapes.items() if shape.low_contacts_only_up_to is not None]


def _work(problem: Problem, slot: int) -> Iterator[PrimerNeed]:
    """What is asked of the primer of this day: only what some movement there could give."""
    if problem.template.build_up is None:
        return iter(())
    asked, prices = problem.template.build_up.primer, problem.template.prices
    kinds = [
        PrimerNeed(
            f"contacts of {listed(asked.families)}",
            asked.contacts,
            prices.target_jump,
            lambda m: problem.library.families.get(m.id) in asked.families,
        ),
        PrimerNeed(
            f"sprints up to {words_of(problem.athlete).run(asked.sprint_m)}",
            asked.sprints,
            prices.sprint,
            lambda m: m.sprint is not None and m.sprint.distance <= asked.sprint_m,
        ),
        PrimerNeed("jumps off the run-up", asked.run_up_jumps, prices.target_jump, lambda m: m.part == "approach-jump"),
    ]
    shape, bar = problem.test_week_shapes[slot], bar_on(problem, problem.last_week, slot)
    # Of the whole library, since a shortlist asks what the library asks.
    there = [m for m in problem.library if m.id != problem.retest.id and home(shape, m) is not None and bar(m) is None]
    return (kind for kind in kinds if any(kind.counts(m) and is_open(problem, m) for m in there))
