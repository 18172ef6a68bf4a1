"""Hard days are spaced, the sport's own included."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from itertools import pairwise

from planner.domain.template import Template
from planner.domain.terms import LEGS
from planner.problem.model import Problem
from planner.problem.per_set import fast_sprints, leg_contacts
from planner.problem.variable import hard_key
from planner.rules.figure_words import counted
from planner.rules.rule import Address, Blamed, Breach, Keys, Plan, Row, Rule, days_too_close

MOST_HIGH_CONTACTS = 200  # above what any session could hold: the slack of a day that counts as hard
MOST_SPRINTS = 100


class HardDaysApart(Rule):
    id = "hard-days-apart"
    title = "Hard days are spaced"
    says = (
        "A day with many high-tier contacts on a leg or several fast sprints is hard; hard days keep their distance "
        "from each other, from hard practices and from matches."
    )
    source = "Haugen et al. 2019, Sports Med Open 5:44, table 2 (48 h); youth 72 h after Bedoya et al. 2015"
    unit = "days"
    field = ("training", "days")
    spans_two_days = True
    moving_days_may_help = True
    sport_to_ease = ("medium practice", "no match")

    def figures(self, template: Template) -> str:
        hard, adult, young = template.hard_day, _dates_apart(template, youth=False), _dates_apart(template, youth=True)
        contacts, sprints = counted(hard.high_contacts_leg, "high-tier contact"), counted(hard.sprints, "sprint")
        apart = _for_both(adult, young)
        match = _for_both(*(max(days, hard.days_before_match) for days in (adult, young)))
        distance = f"from each other {apart}; before a match {match}"
        return (
            f"Hard from {contacts} on a leg or {sprints} at {hard.sprint_speed_percent} % of top speed or faster. "
            f"At least: {'from each other and before a match ' + apart if apart == match else distance}."
        )

    def rows(self, problem: Problem) -> Iterator[Row]:
        rule = problem.template.hard_day
        days = problem.programmed_days()  # another rule keeps hard days away from the closing test
        for week, slot in days:
            hard, at = hard_key(week, slot), Address(week=week, slot=slot)
            for leg in LEGS:
                terms = problem.session_terms(week, slot, leg_contacts("high", leg))
                if terms:
                    slack = (-MOST_HIGH_CONTACTS, hard)
                    yield self.row(at._replace(of="high", leg=leg), [*terms, slack], high=rule.high_contacts_leg - 1)
            sprints = problem.session_terms(week, slot, fast_sprints)
            if sprints:
                yield self.row(at._replace(of="sprints"), [*sprints, (-MOST_SPRINTS, hard)], high=rule.sprints - 1)
        apart = _days_apart(problem)
        for i, first in enumerate(days):
            for second in days[i + 1 :]:
                if (problem.dates[second] - problem.dates[first]).days < apart:
                    one, other = hard_key(*first), hard_key(*second)
                    yield self.row(one.at, [(1, one), (1, other)], high=1, other=other.at)
        for key in days:
            if _sport_forbids(problem, problem.dates[key]) is not None:
                hard = hard_key(*key)
                yield self.row(hard.at._replace(of="sport"), [(1, hard)], high=0)

    def at_limit(self, row: Row) -> str | None:
        days = [variable for _, variable in row.terms if variable.kind == "hard"]
        if len(days) < len(row.terms):
            return None
        return "only one of the two may be hard" if len(days) > 1 else "it may not be hard"

    def blamed(self, part: Blamed) -> Iterator[tuple[Keys, str]]:
        yield self.field, f"{self.title}: {days_too_close('hard days', _days_apart(part.problem), part)}"

    def audit(self, plan: Plan) -> Iterator[Breach]:
        apart = _days_apart(plan.problem)
        hard = [s for w in plan.weeks for s in w.sessions if s.is_hard(plan.problem) and not s.is_test]
        for first, second in pairwise(hard):
            days = (second.date - first.date).days
            if days < apart:
                sentence = f"{first.where} and {second.where} are both hard and {counted(days, 'day')} apart; "
                yield self.breach(second.at, sentence + f"hard days need {apart}", apart - days)
        for session in hard:
            reason = _sport_forbids(plan.problem, session.date)
            if reason is not None:
                yield self.breach(session.at, f"{session.where} is hard, {reason}", 1)


def _days_apart(problem: Problem) -> int:
    return _dates_apart(problem.template, problem.youth)


def _dates_apart(template: Template, youth: bool) -> int:
    adult = template.hard_day.days_apart
    return max(template.youth.days_apart, adult) if youth else adult


def _for_both(adult: int, young: int) -> str:
    """For the manual: the days for adults, and for youth and novices where it is more."""
    return counted(adult, "day") + (f", {young} for youth and novices" if young != adult else "")


def _sport_forbids(problem: Problem, date: datetime.date) -> str | None:
    """Why sport allows no hard day on this date: a match too soon after it, or a hard practice or match too close."""
    before_match, apart = problem.template.hard_day.days_before_match, _days_apart(problem)
    for offset in range(-apart + 1, max(apart, before_match)):
        day = problem.sport.get(date + datetime.timedelta(days=offset))
        if day is None or not day.hard:
            continue
        when = _when(offset)
        if day.match:
            return f"{when} a match"
        if offset != 0 and abs(offset) < apart:
            return f"{when} a hard practice"
    return None


def _when(offset: int) -> str:
    """When a hard day is, seen from sport ``offset`` days later."""
    if offset == 0:
        return "on the day of"
    days = "the day" if abs(offset) == 1 else f"{abs(offset)} days"
    return f"{days} {'before' if offset > 0 else 'after'}"
