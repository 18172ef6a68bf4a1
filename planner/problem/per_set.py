"""What a set adds to each currency, and what a movement takes once a session: coefficients that rules sum."""

from __future__ import annotations

from collections.abc import Callable

from planner.domain.terms import Joint, Leg, Pattern, Quality, Tier
from planner.problem.model import Entry, Problem
from planner.problem.variable import Term

PerSet = Callable[[Entry], int]


def working_sets(entry: Entry) -> int:
    return int(entry.dosage.is_working_set)


def contacts(entry: Entry) -> int:
    return entry.dosage.contacts


def sprints(entry: Entry) -> int:
    return entry.dosage.sprints


def fast_sprints(entry: Entry) -> int:
    return entry.dosage.fast_sprints


def approach_contacts(entry: Entry) -> int:
    return entry.dosage.approach_contacts


def set_seconds(entry: Entry) -> int:
    return entry.dosage.set_seconds


def once_seconds(entry: Entry) -> int:
    """Ramp-up sets, and a weaker leg's extra set."""
    return entry.dosage.ramp_seconds + (entry.dosage.extra.seconds if entry.dosage.extra else 0)


def extra_stress(joint: Joint, leg: Leg) -> PerSet:
    """Of a weaker leg's extra set, once a session."""

    def once(entry: Entry) -> int:
        extra = entry.dosage.extra
        return extra.stress.get(joint, 0) if extra is not None and extra.leg == leg else 0

    return once


def quarter_sets(quality: Quality) -> PerSet:
    return lambda entry: entry.dosage.quarter_sets.get(quality, 0)


def tier_contacts(tier: Tier) -> PerSet:
    return lambda entry: entry.dosage.contacts if entry.dosage.tier == tier else 0


def leg_contacts(tier: Tier, leg: Leg) -> PerSet:
    return lambda entry: entry.dosage.leg_contacts.get(leg, 0) if entry.dosage.tier == tier else 0


def stress(joint: Joint, leg: Leg) -> PerSet:
    return lambda entry: entry.dosage.stress.get((joint, leg), 0)


def tag3_contacts(joint: Joint, leg: Leg) -> PerSet:
    return lambda entry: entry.dosage.tag3_contacts.get((joint, leg), 0)


def trains(pattern: Pattern) -> PerSet:
    return lambda entry: int(pattern in entry.movement.patterns)


def stress_terms(problem: Problem, week: int, slot: int, joint: Joint, leg: Leg) -> list[Term]:
    """Joint stress of a session: of its sets and of a weaker leg's extra set."""
    of_sets = problem.session_terms(week, slot, stress(joint, leg))
    return of_sets + problem.once_terms(week, slot, extra_stress(joint, leg))


def week_stress_terms(problem: Problem, week: int, joint: Joint, leg: Leg) -> list[Term]:
    return [term for slot in problem.training_days(week) for term in stress_terms(problem, week, slot, joint, leg)]
