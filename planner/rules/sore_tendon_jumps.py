"""A sore tendon takes few full jumps, well apart."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from planner.domain.template import Template
from planner.domain.terms import LEGS, Leg
from planner.problem.ceilings import pain_at
from planner.problem.model import SORE_TENDONS, Problem
from planner.problem.per_set import leg_contacts
from planner.problem.variable import in_key
from planner.rules.days_between import close_days
from planner.rules.figure_words import counted
from planner.rules.rule import Address, Breach, Plan, Row, Rule, Term


class SoreTendonJumps(Rule):
    id = "sore-tendon-jumps"
    title = "Few full jumps on a sore tendon"
    says = (
        "If an Achilles tendon or a knee hurts at all, that leg does few jumps of the high tier a week, the test "
        "included, and days with such jumps keep apart."
    )
    source = "turnover of the tendon: Magnusson et al. 2010, from memory; the ceilings are common practice, no source"
    unit = "contacts"
    field = ("joints",)
    spans_two_days = True
    moving_days_may_help = True

    def figures(self, template: Template) -> str:
        asked = template.recovery
        if asked is None:
            return ""
        return f"At most {asked.sore_full_jumps_week} a week, at least {asked.sore_days_apart:g} days apart."

    def rows(self, problem: Problem) -> Iterator[Row]:
        asked, legs = problem.template.recovery, _sore_legs(problem)
        if asked is None or not legs:
            return
        for week in problem.weeks:
            for leg in legs:
                terms = problem.week_terms(week, leg_contacts("high", leg))
                yield self.row(Address(week=week, of="high", leg=leg), terms, high=asked.sore_full_jumps_week)
        yield from self._apart(problem, legs, asked.sore_days_apart)

    def _apart(self, problem: Problem, legs: list[Leg], days_apart: int) -> Iterator[Row]:
        jumps: dict[tuple[str, int], dict[str, None]] = {}
        for week, slot in problem.programmed_days():
            entries = [entry for entry in problem.entries[week, slot] if entry.dosage.high_sets]
            full = [e for e in entries if any(leg_contacts("high", leg)(e) for leg in legs)]
            jumps.setdefault((problem.phase_of(week), slot), {}).update(dict.fromkeys(e.movement.id for e in full))
        for one, other in close_days(problem, days_apart):
            later: list[Term] = [(1, in_key(*other, name)) for name in jumps.get(other, {})]
            for name in jumps.get(one, {}):
                if later:
                    chosen = in_key(*one, name)
                    terms = [(len(later), chosen), *later]
                    yield self.row(chosen.at, terms, high=len(later), other=Address(phase=other[0], slot=other[1]))

    def audit(self, plan: Plan) -> Iterator[Breach]:
        asked, legs = plan.problem.template.recovery, _sore_legs(plan.problem)
        if asked is None or not legs:
            return
        for week in plan.weeks:
            for leg in legs:
                done = week.leg_tier_contacts("high", leg)
                if done > asked.sore_full_jumps_week:
                    sentence = f"week {week.number}: {done:g} full jumps on the sore {leg} leg; "
                    sentence += f"at most {asked.sore_full_jumps_week}"
                    over = done - asked.sore_full_jumps_week
                    yield self.breach(Address(week=week.number, of="high", leg=leg), sentence, over)
        sessions = [session for session in plan.sessions if not session.is_test]
        full = [one for one in sessions if any(one.leg_tier_contacts("high", leg) for leg in legs)]
        for before, after in pairwise(full):
            days = (after.date - before.date).days
            if days < asked.sore_days_apart:
                sentence = f"{before.where} and {after.where} both have full jumps on a sore tendon, "
                sentence += f"{counted(days, 'day')} apart; they need {asked.sore_days_apart}"
                yield self.breach(after.at, sentence, asked.sore_days_apart - days)


def _sore_legs(problem: Problem) -> list[Leg]:
    joints = problem.athlete.joints
    return [leg for leg in LEGS if any(pain_at(joints, joint, leg) for joint in SORE_TENDONS)]
