"""The movements with an extra set on the weaker leg, and what that set takes."""

from __future__ import annotations

from collections.abc import Mapping

from planner.domain.movement import Movement
from planner.domain.terms import Leg, Quality
from planner.problem.model import Dosage, ExtraSet


def extra_leg(movement: Movement, weaker_legs: Mapping[Quality, Leg]) -> Leg | None:
    """The weaker leg of a one-leg lift or hold in the qualities that it trains in full, if there is just one."""
    if movement.legs != "one" or movement.kind not in ("lift", "hold"):
        return None
    legs = {leg for quality, leg in weaker_legs.items() if movement.qualities.get(quality, 0) == 3}
    return next(iter(legs)) if len(legs) == 1 else None


def extra_set(movement: Movement, dosage: Dosage, weaker_legs: Mapping[Quality, Leg]) -> ExtraSet | None:
    """The extra set with its rest. Budgets do not count it, because work done on each leg counts once."""
    leg = extra_leg(movement, weaker_legs)
    if leg is None or not dosage.high_sets:
        return None
    return ExtraSet(
        leg=leg,
        seconds=round(movement.dose.set_time + movement.dose.rest),
        stress={joint: units for (joint, side), units in dosage.stress.items() if side == leg},
    )
