"""No jump has more contacts in the taper than in the week before."""

from __future__ import annotations

from collections.abc import Iterator

from planner.problem.model import Problem
from planner.rules.build_up_jumps import builds_up
from planner.rules.figure_words import counted
from planner.rules.rule import Address, Breach, Plan, Row, Rule, Term


class JumpsInTaper(Rule):
    id = "jumps-in-taper"
    title = "No jump grows in the taper"
    says = (
        "In a taper week no movement has more contacts than in the load week before it, unless that one lost a day; "
        "jumps that build up to others are warm-up, and free."
    )
    source = "common practice, no source"
    unit = "contacts"

    def rows(self, problem: Problem) -> Iterator[Row]:
        if problem.template.recovery is None:
            return
        for week in problem.weeks:
            before = _load_week_before(problem, week)
            if before is None:
                continue
            terms: dict[str, list[Term]] = {}
            for of, sign in ((week, 1), (before, -1)):
                for entry in problem.week_entries(of):
                    if entry.dosage.contacts and not _is_free(problem, entry.movement.id):
                        terms.setdefault(entry.movement.id, []).append((sign * entry.dosage.contacts, entry.key))
            for movement, found in terms.items():
                yield self.row(Address(week=week, movement=movement), found, high=0, other=Address(week=before))

    def audit(self, plan: Plan) -> Iterator[Breach]:
        if plan.problem.template.recovery is None:
            return
        for week in plan.weeks:
            before = _load_week_before(plan.problem, week.number)
            if before is None:
                continue
            was: dict[str, int] = {}
            now: dict[str, int] = {}
            for counts, items in ((was, plan.week(before).items), (now, week.items)):
                for item in items:
                    counts[item.movement.id] = counts.get(item.movement.id, 0) + item.item.contacts
            for movement, contacts in now.items():
                before_that = was.get(movement, 0)
                if contacts > before_that and not _is_free(plan.problem, movement):
                    name = plan.problem.library[movement].name
                    sentence = f"week {week.number}: {counted(contacts, 'contact')} of {name}, "
                    sentence += f"{before_that} the week before"
                    at = Address(week=week.number, movement=movement)
                    yield self.breach(at, sentence, contacts - before_that)


def _is_free(problem: Problem, movement: str) -> bool:
    return movement == problem.retest.id or builds_up(problem, problem.library[movement])


def _load_week_before(problem: Problem, week: int) -> int | None:
    """The load week right before a taper week; None for any other week, or if that one lost a day."""
    return week - 1 if problem.role(week) == "taper" and week - 1 in problem.full_load_weeks else None
