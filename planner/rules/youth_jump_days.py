"""Novices and youth jump on few days, well apart."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, pairwise, product

from planner.domain.template import Template
from planner.problem.model import Problem
from planner.problem.training_days import Phase
from planner.problem.variable import Variable, in_key
from planner.rules.figure_words import counted
from planner.rules.rule import Address, Blamed, Breach, Keys, Plan, Row, Rule, days_too_close

Day = tuple[str, int]  # phase, slot


class YouthJumpDays(Rule):
    id = "youth-jump-days"
    title = "Few jump days for novices and youth"
    says = "Novices and youth jump on few days a week, well apart; the closing test counts as one of them."
    source = "Bedoya et al. 2015, JSCR 29:2351; extended to novices as common practice"
    unit = "days"
    field = ("training", "days")
    spans_two_days = True
    moving_days_may_help = True

    def figures(self, template: Template) -> str:
        youth = template.youth
        days, apart = counted(youth.jump_days, "jump day"), counted(youth.days_apart, "day")
        hours = 24 * youth.days_apart
        return f"At most {days} a week, at least {apart} ({hours} hours) apart; youth are under {youth.under_years}."

    def rows(self, problem: Problem) -> Iterator[Row]:
        """What is chosen holds for a whole phase, so days are compared phase by phase."""
        if not problem.youth:
            return
        jumps = _jump_choices(problem)
        yield from self._before_test(problem, jumps)
        for phase, following in [(p, p) for p in problem.phases] + list(pairwise(problem.phases)):
            for a in phase.slots:
                for b in following.slots:
                    yield from self._too_close(problem, jumps, (phase.id, a), (following.id, b))
        for phase in problem.phases:
            yield from self._too_many(problem, jumps, phase)

    def _before_test(self, problem: Problem, jumps: dict[Day, list[Variable]]) -> Iterator[Row]:
        """The test is a jump day itself: no other comes close before it."""
        test = problem.dates[problem.last_week, problem.test_slot]
        last = Address(week=problem.last_week, slot=problem.test_slot)
        for week in problem.weeks:
            for slot in problem.training_days(week):
                if 0 < (test - problem.dates[week, slot]).days < problem.template.youth.days_apart:
                    for chosen in jumps.get((problem.phase_of(week), slot), []):
                        at = Address(week=week, slot=slot, movement=chosen.at.movement)
                        yield self.row(at, [(1, chosen)], high=0, other=last)

    def _too_close(self, problem: Problem, jumps: dict[Day, list[Variable]], one: Day, other: Day) -> Iterator[Row]:
        """Two days of a phase, or across its end, too close for both to hold jumps."""
        (phase, a), (following, b) = one, other
        same_week = phase == following and b > a
        days = _days_between(problem, a, b, 0 if same_week else 1)
        if one != other and 0 < days < problem.template.youth.days_apart:
            yield from self._not_all([Address(phase=phase, slot=a), Address(phase=following, slot=b)], jumps)

    def _too_many(self, problem: Problem, jumps: dict[Day, list[Variable]], phase: Phase) -> Iterator[Row]:
        """No week has more jump days than allowed; the last week's test is one of them."""
        with_test = problem.last_week in phase.weeks
        days = [slot for slot in phase.slots if not with_test or slot < problem.test_slot]
        for some in combinations(days, problem.template.youth.jump_days + (0 if with_test else 1)):
            gaps = [_days_between(problem, a, b, 0) for a, b in pairwise(some)]
            if any(gap < problem.template.youth.days_apart for gap in gaps):
                continue  # too close already
            yield from self._not_all([Address(phase=phase.id, slot=day) for day in some], jumps)

    def _not_all(self, days: list[Address], jumps: dict[Day, list[Variable]]) -> Iterator[Row]:
        """Not all of these days have jumps: whatever jumps the others have, the last has none."""
        held = [jumps.get((day.phase or "", day.slot or 0), []) for day in days]
        if not all(held):
            return
        *others, last = held
        for chosen in product(*others):
            terms = [(len(last), key) for key in chosen] + [(1, key) for key in last]
            of = " and ".join(variable.at.movement or "" for variable in chosen)
            yield self.row(days[0]._replace(of=of), terms, high=len(chosen) * len(last), other=days[-1])

    def blamed(self, part: Blamed) -> Iterator[tuple[Keys, str]]:
        yield self.field, f"{self.title}: {days_too_close('jump days', part.problem.template.youth.days_apart, part)}"

    def audit(self, plan: Plan) -> Iterator[Breach]:
        if not plan.problem.youth:
            return
        youth = plan.problem.template.youth
        before = None
        for week in plan.weeks:
            jumping = [s for s in week.sessions if s.contacts]
            if len(jumping) > youth.jump_days:
                sentence = f"week {week.number} has {len(jumping)} jump days; novices and youth have {youth.jump_days}"
                yield self.breach(week.at, sentence, len(jumping) - youth.jump_days)
            for session in jumping:
                if before is not None and (session.date - before.date).days < youth.days_apart:
                    days = (session.date - before.date).days
                    sentence = f"{before.where} and {session.where} both have jumps, {counted(days, 'day')} apart; "
                    yield self.breach(session.at, sentence + f"they need {youth.days_apart}", youth.days_apart - days)
                before = session


def _jump_choices(problem: Problem) -> dict[Day, list[Variable]]:
    found: dict[Day, list[Variable]] = {}
    for phase, slot, movement in problem.choices:
        if problem.library[movement].jump is not None:
            found.setdefault((phase, slot), []).append(in_key(phase, slot, movement))
    return found


def _days_between(problem: Problem, a: int, b: int, weeks_later: int) -> int:
    return problem.day_offset(b) - problem.day_offset(a) + 7 * weeks_later
