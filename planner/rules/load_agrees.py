"""Load, repetitions and reserve on a card agree, and novices keep enough in hand."""

from __future__ import annotations

from collections.abc import Iterator

from planner.estimate.strength import OutOfRange, reps_to_failure
from planner.problem.model import Problem
from planner.rules.base import Breach, CountedItem, Plan, Row, Rule

TOLERANCE_reps = 1.25  # "within about a repetition", plates rounded


class LoadAgrees(Rule):
    id = "load-agrees"
    title = "Load, reps and reserve agree"
    says = (
        "Where a card prints a percentage, its repetitions and its reserve together are what the load-repetition table "
        "gives at that percentage, within about one; nobody is left less in reserve than the level keeps."
    )
    source = "NSCA training load chart; that people differ: Nuzzo et al. 2024, Sports Med 54:303"
    unit = "repetitions"

    def rows(self, problem: Problem) -> Iterator[Row]:
        """None: loads are worked out from the same wave for whatever is chosen."""
        yield from ()

    def audit(self, plan: Plan) -> Iterator[Breach]:
        least = max(plan.problem.level.least_reserve, 3 if plan.problem.youth else 0)
        for _, session, counted in plan.working_items():
            item = counted.item
            if item.reps_in_reserve is not None and item.reps_in_reserve < least:
                sentence = (
                    f"{counted.name} in {session.where} leaves {item.reps_in_reserve} in reserve; at least {least}"
                )
                yield self.breach(session.where, sentence, least - item.reps_in_reserve)
            off = _reps_off(counted)
            if off is not None and abs(off) > TOLERANCE_reps:
                sentence = (
                    f"{counted.name} in {session.where}: {item.reps} reps with {item.reps_in_reserve} in reserve at "
                )
                sentence += f"{item.percent:g} % do not agree; the table is {abs(off):.1f} repetitions away"
                yield self.breach(session.where, sentence, abs(off))


def _reps_off(counted: CountedItem) -> float | None:
    """Repetitions asked for, reserve included, less those that the table gives; None where no percentage is printed."""
    item = counted.item
    if item.percent is None or item.reps is None or item.reps_in_reserve is None:
        return None
    try:
        return item.reps + item.reps_in_reserve - reps_to_failure(item.percent)
    except OutOfRange:
        return None if item.percent < 70 else 0.0
