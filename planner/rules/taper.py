"""The taper halves the work of the reference week and keeps its intensity."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.template import Template
from planner.problem.model import Problem, scaled
from planner.rules.currencies import CONTACTS, HIGH_TIER, WEEKLY, Currency
from planner.rules.deload import THOUSANDTHS
from planner.rules.figure_words import percent, weeks_of
from planner.rules.rule import Breach, Plan, Row, Rule


class Taper(Rule):
    id = "taper"
    title = "The taper halves the reference week"
    says = (
        "In a taper week working sets, contacts, high tier and sprints each stay within the template's share of its "
        "reference week; load and effort stay the same. One more or less is allowed where the reference has few; the "
        "closing test's own jumps do not count against the high tier's limit. Less is allowed where away dates take "
        "days out of the week, or leave a novice only the test day for jumps."
    )
    source = "Bosquet et al. 2007, MSSE 39:1358 (volume -41 to -60 %); its data are mostly endurance"
    unit = "sets, contacts or sprints"
    row_units = THOUSANDTHS

    def figures(self, template: Template) -> str:
        weeks, shares = weeks_of(template, "taper"), template.taper
        if not weeks:
            return "It has no taper."
        span = f"{percent(shares.low)} to {percent(shares.high)}"
        few = f"one more or less where that week aims at fewer than {shares.small}"
        return f"{weeks.capitalize()}: {span} of week {template.reference_week}; {few}."

    def rows(self, problem: Problem) -> Iterator[Row]:
        shares, reference = problem.template.taper, problem.reference_week
        for week in (week for week in problem.weeks if problem.role(week) == "taper"):
            for one in _cut(problem):
                now, then = scaled(one.terms(problem, week), THOUSANDTHS), one.terms(problem, reference)
                room = THOUSANDTHS if _is_small(problem, one) else 0
                high = scaled(then, -round(THOUSANDTHS * shares.high))
                low = scaled(then, -round(THOUSANDTHS * shares.low))
                test = _test_jumps(problem, week) if one is HIGH_TIER else 0
                yield self.row(one.at(week), now + high, high=room + THOUSANDTHS * test)
                if not _may_fall(problem, week, one):
                    yield self.row(one.at(week), now + low, low=-room)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        shares, problem = plan.problem.template.taper, plan.problem
        reference = plan.week(problem.reference_week)
        for number in [week.number for week in plan.weeks if week.week.role == "taper"]:
            for one in _cut(problem):
                now, then = one.done(plan.week(number)), one.done(reference)
                room = 1.0 if _is_small(problem, one) else 0.0
                least = 0.0 if _may_fall(problem, number, one) else shares.low * then - room
                tests = [session for session in plan.week(number).sessions if session.is_test]
                test = sum(session.tier_contacts("high") for session in tests) if one is HIGH_TIER else 0
                most = shares.high * then + room + test
                if not least - 1e-9 <= now <= most + 1e-9:
                    sentence = f"week {number} (taper): {now:g} {one.words} against {then:g} in week "
                    sentence += f"{reference.number}; should be {max(least, 0):.1f} to {most:.1f}"
                    yield self.breach(one.at(number), sentence, max(least - now, now - most))


def _cut(problem: Problem) -> list[Currency]:
    """What a taper limits; not the high tier if the block has none apart from the closing test."""
    has_high = problem.bands[problem.reference_week].tiers["high"].high > 0
    return [one for one in WEEKLY if has_high or one is not HIGH_TIER]


def _test_jumps(problem: Problem, week: int) -> int:
    """High-tier contacts of the closing test, whose sets are fixed."""
    entries = [entry for entry in problem.week_entries(week) if entry.movement.id == problem.retest.id]
    return sum(HIGH_TIER.per_set(entry) * entry.dosage.low_sets for entry in entries)


def _may_fall(problem: Problem, week: int, one: Currency) -> bool:
    """Whether dates allow less than the least: days are away, or only the test day may have jumps."""
    return problem.lost_days(week) or (one is CONTACTS and problem.only_the_test_jumps(week))


def _is_small(problem: Problem, one: Currency) -> bool:
    """Whether the reference week aims at so little that a share of it may fall between two whole numbers."""
    bands = problem.bands[problem.reference_week]
    all_sets = sum(band.high for band in bands.quarter_sets.values()) / 4
    return (all_sets if one.band is None else one.band(bands).high) < problem.template.taper.small
