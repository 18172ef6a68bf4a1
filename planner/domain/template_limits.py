"""Small limits of a template, each a section of its own: shares of another week, progress, loads on the card."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import AfterValidator, Field
from pydantic_core import PydanticCustomError

from planner.domain.base import Count, Fraction, Model, Seq

Factor = Annotated[float, Field(ge=0, le=5)]


def _to_three_places(ratio: float) -> float:
    if ratio != round(ratio, 3):
        raise PydanticCustomError("quantity", "{reason}", {"reason": f"{ratio} has more than three decimal places"})
    return ratio


# Rows are whole numbers: with more places the solver and the audit would not mean the same.
Ratio = Annotated[Factor, AfterValidator(_to_three_places)]


class Deload(Model):
    """Least and largest share of the last load week; the bands aim ``aim_under`` below the largest."""

    low: Fraction
    high: Fraction
    aim_under: Fraction


class Taper(Model):
    """Least and largest share of the reference week; under ``small`` of a thing one more or less is allowed."""

    low: Fraction
    high: Fraction
    small: Count


# Those by which the solver's smallest part of a point can be divided, so that rows and recount agree to the last bit.
DoseParts = Literal[1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 24, 30, 40, 60, 120]


class Counting(Model):
    """What a set counts as, by its tags of 1, 2 and 3.

    ``quality_quarters``: of a working set, credited to a quality. ``stress_weights``: points of a joint a dose; a dose
    is a working set, ``contacts_per_dose``, ``hold_s_per_dose`` or ``sprint_m_per_dose``.
    """

    quality_quarters: Annotated[Seq[Annotated[int, Field(ge=0, le=4)]], Field(min_length=3, max_length=3)]
    stress_weights: Annotated[Seq[Annotated[int, Field(ge=0, le=20)]], Field(min_length=3, max_length=3)]
    contacts_per_dose: DoseParts
    hold_s_per_dose: DoseParts
    sprint_m_per_dose: DoseParts


class SteadyProgress(Model):
    """The most that sets rise to the next load week of a phase: of lifts and holds, of jumps and sprints."""

    more_sets: Count
    more_efforts: Count


class LoadLimits(Model):
    """Loads on the card, and how far load, repetitions and reserve may stand from the load-repetition table.

    ``machine_step_kg``: the step of stacks, vests and single plates held. ``most_reps_off``: a load that the gym's iron
    puts further from the wave is not printed. ``agree_reps``, ``agree_percent``: what is printed agrees within these.
    ``easy_reserve``: so many in reserve and more mean easy and fast, at any lighter load.
    """

    machine_step_kg: Annotated[float, Field(gt=0, le=20)]
    most_reps_off: Factor
    agree_reps: Factor
    agree_percent: Factor
    easy_reserve: Annotated[int, Field(ge=0, le=10)]
