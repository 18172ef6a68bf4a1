"""One line for each session: why it has what it has."""

from __future__ import annotations

from planner.domain.template import Shape
from planner.domain.terms import LIFT_QUALITIES, Quality
from planner.problem.model import Entry, Problem

PLAIN: dict[Quality, str] = {
    "maximal-strength": "strength",
    "unilateral-hip": "one-leg hip strength",
    "knee-dominant": "one-leg knee strength",
    "calf-ankle": "calf strength",
    "speed-exposure": "fast jumps and sprints",
}


def why_today(problem: Problem, shape: Shape, week: int, entries: list[Entry]) -> str:
    """The shape's reason, the week's role if it is not a load week, and what the tests ask more of."""
    parts = []
    if problem.role(week) == "deload":
        parts.append("Easy week.")
    if problem.role(week) == "taper":
        parts.append("Taper: half the work, all the speed.")
    parts.append(shape.why)
    more = [PLAIN[q] for q in _asked_more(problem) if _holds(entries, q)]
    if more:
        parts.append(f"The test asks for more {' and '.join(more)}.")
    return " ".join(parts)


def _asked_more(problem: Problem) -> list[Quality]:
    """Qualities with more emphasis. Differences too small to act on leave a tilt of 1 (the benchmarks' dead zone)."""
    return [q for q, tilt in sorted(problem.tilts.items(), key=lambda pair: -pair[1]) if tilt > 1]


def _holds(entries: list[Entry], quality: Quality) -> bool:
    if quality in LIFT_QUALITIES:
        return any(e.movement.qualities.get(quality, 0) == 3 and e.dosage.is_working_set for e in entries)
    return any(e.dosage.sprints or e.dosage.tier == "high" for e in entries)
