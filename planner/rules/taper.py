"""The taper halves the work of the reference week and keeps its intensity."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.template import Template
from planner.problem.model import Problem, scaled
from planner.problem.per_set import tier_contacts
from planner.rules.base import Address, Breach, Plan, Row, Rule
from planner.rules.deload import COUNTED, PER_SET, THOUSANDTHS
from planner.rules.wording import percent, weeks_of

HIGH_TIER = "high-tier contacts"


class Taper(Rule):
    id = "taper"
    title = "The taper halves the reference week"
    says = (
        "In a taper week total working sets, contacts, high tier and sprints each lie within the template's share of "
        "its reference week; load and effort stay. One more or less is allowed where the reference holds few; "
        "the closing test's own jumps do not count against the most of the high tier. Less is allowed where away dates "
        "take days out of the week, or leave a novice no day but the test for jumps."
    )
    source = "Bosquet et al. 2007, MSSE 39:1358 (volume -41 to -60 %); its data are mostly endurance"
    unit = "sets, contacts or sprints"
    row_units = THOUSANDTHS

    def figures(self, template: Template) -> str:
        weeks, shares = weeks_of(template, "taper"), template.taper
        if not weeks:
            return "No week of it is a taper."
        span = f"{percent(shares.low)} to {percent(shares.high)}"
        few = f"one more or less where that week aims at fewer than {shares.small}"
        return f"{weeks.capitalize()}: {span} of week {template.reference_week}; {few}."

    def rows(self, problem: Problem) -> Iterator[Row]:
        shares, reference = problem.template.taper, problem.reference_week
        for week in _tapers(problem):
            for what, per_set in PER_SET.items():
                now = scaled(problem.week_terms(week, per_set), THOUSANDTHS)
                then = problem.week_terms(reference, per_set)
                if _is_empty(problem, what):
                    continue
                at = Address(week=week, of=what)
                room = THOUSANDTHS if _is_small(problem, what) else 0
                high = scaled(then, -round(THOUSANDTHS * shares.high))
                low = scaled(then, -round(THOUSANDTHS * shares.low))
                test = _test_jumps(problem, week) if what == HIGH_TIER else 0
                yield self.row(at, now + high, high=room + THOUSANDTHS * test)
                if not _may_fall(problem, week, what):
                    yield self.row(at, now + low, low=-room)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        shares, problem = plan.problem.template.taper, plan.problem
        reference = plan.week(problem.reference_week)
        for number in _tapers(problem):
            for what, count in COUNTED.items():
                if _is_empty(problem, what):
                    continue
                now, then = count(plan.week(number)), count(reference)
                room = 1.0 if _is_small(problem, what) else 0.0
                least = 0.0 if _may_fall(problem, number, what) else shares.low * then - room
                tests = [session for session in plan.week(number).sessions if session.is_test]
                test = sum(session.tier_contacts("high") for session in tests) if what == HIGH_TIER else 0
                most = shares.high * then + room + test
                if not least - 1e-9 <= now <= most + 1e-9:
                    sentence = f"week {number} (taper): {now:g} {what} against {then:g} in week {reference.number}; "
                    sentence += f"between {max(least, 0):.1f} and {most:.1f}"
                    yield self.breach(Address(week=number, of=what), sentence, max(least - now, now - most))


def _test_jumps(problem: Problem, week: int) -> int:
    """High-tier contacts of the closing test, whose sets are fixed."""
    high = tier_contacts("high")
    return sum(high(e) * e.dosage.low_sets for e in problem.week_entries(week) if e.movement.id == problem.retest.id)


def _tapers(problem: Problem) -> list[int]:
    return [week for week in problem.weeks if problem.role(week) == "taper"]


def _may_fall(problem: Problem, week: int, what: str) -> bool:
    """Whether dates allow less than the least: days are away, or no day but the test may hold a jump."""
    return problem.lost_days(week) or (what == "contacts" and problem.only_the_test_jumps(week))


def _is_empty(problem: Problem, what: str) -> bool:
    """Whether the block holds no high tier at all; the closing test may still."""
    return what == HIGH_TIER and problem.bands[problem.reference_week].tiers["high"].high == 0


def _is_small(problem: Problem, what: str) -> bool:
    """Whether the reference week aims at so few that its shares may fall between two whole numbers."""
    bands = problem.bands[problem.reference_week]
    aim = {
        "working sets": sum(band.high for band in bands.quarter_sets.values()) / 4,
        "contacts": bands.contacts.high,
        "high-tier contacts": bands.tiers["high"].high,
        "sprints": bands.sprints.high,
    }
    return aim[what] < problem.template.taper.small
