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


LargestShare = Annotated[Fraction, Field(description="The largest share of it.")]


class Deload(Model):
    """Least and largest share of the last load week; the bands aim ``aim_under`` below the largest."""

    low: Fraction = Field(description="The least share of the last load week.")
    high: LargestShare
    aim_under: Fraction = Field(description="The bands aim this far under the largest share.")


class Taper(Model):
    """Least and largest share of the reference week; under ``small`` of a thing one more or less is allowed."""

    low: Fraction = Field(description="The least share of the reference week.")
    high: LargestShare
    small: Count = Field(description="Under so many of a thing, one more or less is allowed.")


# Those by which the solver's smallest part of a point can be divided, so that rows and recount agree to the last bit.
DoseParts = Literal[1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 24, 30, 40, 60, 120]


class Counting(Model):
    """What a set counts as, by its tags of 1, 2 and 3.

    ``quality_quarters``: of a working set, credited to a quality. ``stress_weights``: points of a joint a dose; a dose
    is a working set, ``contacts_per_dose``, ``hold_s_per_dose`` or ``sprint_m_per_dose``.
    """

    quality_quarters: Seq[Annotated[int, Field(ge=0, le=4)]] = Field(
        min_length=3, max_length=3, description="Quarters of a set for a quality, for a tag of 1, 2 and 3."
    )
    stress_weights: Seq[Annotated[int, Field(ge=0, le=20)]] = Field(
        min_length=3, max_length=3, description="Points of a joint a dose, for a tag of 1, 2 and 3."
    )
    contacts_per_dose: DoseParts = Field(description="Contacts of a leg that count as one working set does.")
    hold_s_per_dose: DoseParts = Field(description="Seconds of holding that count as one working set does.")
    sprint_m_per_dose: DoseParts = Field(description="Metres of sprinting that count as one working set does.")


class SteadyProgress(Model):
    """The most that sets rise to the next load week of a phase: of lifts and holds, of jumps and sprints."""

    more_sets: Count = Field(description="The most that a lift's or hold's sets rise to the next load week.")
    more_efforts: Count = Field(description="The same for jumps and sprints.")


class LoadLimits(Model):
    """Loads on the card, and how far load, repetitions and reserve may stand from the load-repetition table.

    ``machine_step_kg``: the step of stacks, vests and single plates held. ``most_reps_off``: a load that the gym's iron
    puts further from the wave is not printed. ``agree_reps``, ``agree_percent``: what is printed agrees within these.
    ``easy_reserve``: so many in reserve and more mean easy and fast, at any lighter load.
    """

    machine_step_kg: float = Field(gt=0, le=20, description="Step of stacks, vests and single plates held, kg.")
    most_reps_off: Factor = Field(description="A load this many reps from the wave and more is left to the athlete.")
    agree_reps: Factor = Field(description="Load, reps and reserve agree within so many reps.")
    agree_percent: Factor = Field(description="Load and percentage agree within so many per cent of the maximum.")
    easy_reserve: int = Field(ge=0, le=10, description="With so many reps in reserve, any lighter load agrees.")
