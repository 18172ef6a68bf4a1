"""Novices and youth jump on few days, well apart."""

from __future__ import annotations

from collections.abc import Iterator

from planner.problem.model import Problem, in_key
from planner.rules.base import Breach, Plan, Row, Rule, choices


class YouthJumpDays(Rule):
    id = "youth-jump-days"
    title = "Few jump days for novices and youth"
    says = "Novices and youth jump on two days a week, 72 hours apart; the closing test counts as one of its week."
    source = "Bedoya et al. 2015, JSCR 29:2351; extended to novices as common practice"
    unit = "days"

    def rows(self, problem: Problem) -> Iterator[Row]:
        """A day's jumping stands or falls with its phase, so days are compared by what each phase has on them."""
        if not problem.youth:
            return
        jumps = _jump_choices(problem)
        for phase, following in [(p, p) for p in problem.phases] + list(
            zip(problem.phases, problem.phases[1:], strict=False)
        ):
            for a in problem.slots:
                for b in problem.slots:
                    yield from self._clash(problem, jumps, phase.id, following.id, a.number, b.number)

    def _clash(
        self,
        problem: Problem,
        jumps: dict[tuple[str, int], list[str]],
        phase: str,
        following: str,
        a: int,
        b: int,
    ) -> Iterator[Row]:
        """Two days of a phase, or across its end, too close for both to hold jumps."""
        same_week = phase == following and b > a
        days = _days_between(problem, a, b, 0 if same_week else 1)
        if (phase == following and a == b) or days >= problem.template.youth.days_apart or days <= 0:
            return
        for first in jumps.get((phase, a), []):
            terms = [(len(jumps.get((following, b), [])), first)] + [(1, key) for key in jumps.get((following, b), [])]
            if len(terms) > 1:
                yield self.row(f"{phase}/d{a}-{following}/d{b}/{first}", terms, high=len(terms) - 1)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        if not plan.problem.youth:
            return
        youth = plan.problem.template.youth
        before = None
        for week in plan.weeks:
            jumping = [s for s in week.sessions if s.jumps]
            if len(jumping) > youth.jump_days:
                sentence = f"week {week.number} has {len(jumping)} jump days; novices and youth have {youth.jump_days}"
                yield self.breach(f"week {week.number}", sentence, len(jumping) - youth.jump_days)
            for session in jumping:
                if before is not None and (session.date - before.date).days < youth.days_apart:
                    days = (session.date - before.date).days
                    sentence = f"{before.where} and {session.where} both have jumps, {days} days apart; "
                    yield self.breach(
                        session.where, sentence + f"{youth.days_apart} are needed", youth.days_apart - days
                    )
                before = session


def _jump_choices(problem: Problem) -> dict[tuple[str, int], list[str]]:
    found: dict[tuple[str, int], list[str]] = {}
    for phase, slot, movement in choices(problem):
        if problem.library[movement].jump is not None:
            found.setdefault((phase, slot), []).append(in_key(phase, slot, movement))
    return found


def _days_between(problem: Problem, a: int, b: int, weeks_later: int) -> int:
    return (problem.dates[1, b] - problem.dates[1, a]).days + 7 * weeks_later
