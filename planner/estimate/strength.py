"""One-repetition maxima from sets short of failure, and the load-repetition table read both ways.

Epley: 1RM = w (1 + r/30). Brzycki: 1RM = 36 w / (37 - r). Both put 10 repetitions at 75 % and diverge beyond that.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping
from typing import Literal

from planner.domain.benchmarks import StrengthRule
from planner.estimate.uncertainty import Estimate
from planner.units import counted

Formula = Literal["mean", "epley", "brzycki"]


def chart_of(rule: StrengthRule) -> dict[int, float]:
    """The benchmarks' own load-repetition table, for ``table`` below: repetitions to failure -> percent."""
    return {row.reps: row.percent for row in rule.load_repetitions}


class OutOfRange(ValueError):
    """Outside the range of the formula or table; the message names the range."""


def epley_kg(*, load_kg: float, reps_to_failure: float) -> float:
    """One-repetition maximum by Epley; a single to failure is the maximum itself, not 3 % more."""
    return load_kg if reps_to_failure <= 1 else load_kg * (1.0 + reps_to_failure / 30.0)


def brzycki_kg(*, load_kg: float, reps_to_failure: float) -> float:
    """One-repetition maximum by Brzycki."""
    return load_kg * 36.0 / (37.0 - reps_to_failure)


def one_rm_kg(
    *,
    load_kg: float,
    reps: int,
    reps_in_reserve: int = 0,
    body_mass_kg: float,
    body_mass_share: float = 0.0,
    formula: Formula | None = None,
    most_reps: int,
    reserve_error_reps: float,
    failure_error_reps: float = 0.0,
) -> Estimate:
    """One-repetition maximum of a lift, as load on the bar or in the hands (kg), with its standard error.

    The formula acts on the system lifted, load + ``body_mass_share`` x body mass, and the body is taken off again:
    on the bar load alone a one-leg lift with nothing in the hands would have a maximum of 0. ``formula`` None takes
    the mean of both for a bar lift (share 0) and Epley for a system. The error joins the gap between the formulas
    and the error of the stated reserve, or of a set called to failure; a single to failure is the maximum itself.

    Raises OutOfRange if repetitions and reserve together exceed ``most_reps``.
    """
    total = reps + reps_in_reserve
    if total > most_reps:
        raise OutOfRange(
            f"{reps} repetitions with {counted(reps_in_reserve, 'rep')} in reserve make {total}: a maximum is "
            f"believed up to {most_reps} together; take a heavier set"
        )
    body_kg = body_mass_share * body_mass_kg
    system_kg = load_kg + body_kg
    chosen = formula or ("mean" if body_mass_share == 0 else "epley")
    value = _maximum_kg(chosen, system_kg, total)
    spread = abs(_maximum_kg("epley", system_kg, total) - _maximum_kg("brzycki", system_kg, total)) / 2.0
    step = _maximum_kg(chosen, system_kg, total + 1) - value if total > 1 else 0.0
    error_reps = reserve_error_reps if reps_in_reserve else failure_error_reps
    return Estimate(value - body_kg, math.hypot(spread, step * error_reps))


def _maximum_kg(formula: Formula, load_kg: float, reps_to_failure: float) -> float:
    epley = epley_kg(load_kg=load_kg, reps_to_failure=reps_to_failure)
    brzycki = brzycki_kg(load_kg=load_kg, reps_to_failure=reps_to_failure)
    return {"epley": epley, "brzycki": brzycki, "mean": (epley + brzycki) / 2.0}[formula]


def load_for_reps_kg(*, one_rm: float, reps_to_failure: float, body_mass_kg: float, body_mass_share: float) -> float:
    """Load (kg, bar or hands) that goes about ``reps_to_failure`` times to failure: Epley inverted, on the system."""
    body_kg = body_mass_share * body_mass_kg
    if reps_to_failure <= 1:
        return one_rm
    return (one_rm + body_kg) / (1.0 + reps_to_failure / 30.0) - body_kg


def percent_of_max(reps_to_failure: float, *, table: Mapping[int, float]) -> float:
    """Percent of the maximum that goes that many times to failure, straight lines between the table's rows.

    Raises OutOfRange outside the table.
    """
    rows = sorted(table.items())
    return _between([(float(reps), percent) for reps, percent in rows], reps_to_failure, "repetitions to failure")


def reps_to_failure(percent: float, *, table: Mapping[int, float]) -> float:
    """Repetitions to failure at a percent of the maximum, by the same lines.

    Raises OutOfRange outside the table.
    """
    rows = sorted((value, float(reps)) for reps, value in table.items())
    return _between(rows, percent, "% of the maximum")


def _between(rows: list[tuple[float, float]], at: float, what: str) -> float:
    if not rows[0][0] <= at <= rows[-1][0]:
        raise OutOfRange(f"{at:g} {what} is outside the load-repetition table ({rows[0][0]:g} to {rows[-1][0]:g})")
    for (low, at_low), (high, at_high) in itertools.pairwise(rows):
        if at <= high:
            return at_low + (at_high - at_low) * (at - low) / (high - low)
    return rows[-1][1]
