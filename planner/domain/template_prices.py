"""What things weigh against each other, each in whole points of its own question; all of it is a coach's judgement."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from planner.domain.base import Count, Model, Seq
from planner.domain.template_limits import Factor
from planner.domain.terms import Part

Weight = Annotated[int, Field(ge=1, le=5000)]


class Prices(Model):
    """What a unit of shortfall costs in stage 1, so that sets, contacts and sprints can be weighed.

    At least 1: to the solver a row without a price is a rule that must hold.
    """

    quarter_set: Weight = Field(description="A quarter of a working set.")
    contact: Weight = Field(description="A contact.")
    high_contact: Weight = Field(description="A high-tier contact.")
    sprint: Weight = Field(description="A sprint.")
    target_jump: Weight = Field(default=3, description="A jump as the target asks for, or one that wakes it.")
    fast_phase: Weight = Field(default=10, description="A load phase without fast work, where speed is short.")


class PreferencePrices(Model):
    """Stage 2: what makes one block with the same bands better to run than another. Points without a unit."""

    movement: Count = Field(description="Points for one more movement on a day.")
    shape_moved: Count = Field(description="Points for a session out of the day plan's order.")
    repeated: Count = Field(
        description="Points for each further day of a varied movement in two load phases that follow each other."
    )
    varied_parts: Seq[Part] = Field(description="Parts of a session whose movements should change between phases.")
    no_extra_set: Count = Field(description="Points for a two-leg lift where one leg is asked to get an extra set.")
    level_step: Count = Field(description="Points for a lift a level from the athlete's own.")
    jump_level_step: Count = Field(description="The same for other movements.")
    tested_load: Count = Field(description="Points off where the lift was tested; half where only its reference was.")
    untested_load: Count = Field(description="Points for a percentage whose reference was not tested.")
    beginner_wave: Count = Field(
        description="Points for a beginner's planned progression for an athlete who is not a novice."
    )
    beginner_schemes: Seq[str] = Field(description="The beginners' planned progressions.")
    band_for_iron: Count = Field(
        default=0, description="Points for a band as a lift's load, or for none, if there are dumbbells or a bar."
    )
    other_main_lift: Count = Field(
        default=0, description="Points for a main lift that the block before did not have, where there was one."
    )
    second_main_lift: Count = Field(
        default=0, description="Points for each further day of main lifts of one pattern in a phase."
    )
    uneven_half_minute: Count = Field(
        default=0, description="Points for each half minute that a day is too full while another is too empty."
    )
    uneven_share: float = Field(
        default=0.35,
        ge=0,
        le=1,
        description="How far the used shares of two days' minutes may be apart, free of points.",
    )
    usual_sprint_m: Count = Field(description="Usual distance of a sprint, metres.")
    sprint_10m_off: Count = Field(description="Points for each 10 m from that distance.")
    resisted_sprint: Count = Field(description="Points for a resisted sprint.")
    stress_point: Factor = Field(description="Points for a point of joint stress.")
    quarter_set_off: Count = Field(description="Points for a quarter set from the middle of its weekly range.")
    contact_off: Count = Field(description="Points for a contact from it.")
    high_contact_off: Count = Field(description="Points for a high-tier contact from it.")
    sprint_off: Count = Field(description="Points for a sprint from it.")


class ChangePrices(Model):
    """What the smallest step of each change weighs where there is no block: the cheapest that gives one is named."""

    minute: Weight = Field(description="A minute more on a day.")
    movement: Weight = Field(description="A ban lifted, or a movement allowed by the coach's word.")
    equipment: Weight = Field(description="A piece of equipment more.")
    pin: Weight = Field(description="A pin left out.")
    away_date: Weight = Field(description="A date away that becomes a training date.")
    pattern_week: Weight = Field(description="A pattern not trained in one week.")
    quarter_set: Weight = Field(description="A quarter set under a quality's floor.")
    contact: Weight = Field(description="A contact under the floor.")


class NearPrices(Model):
    """What each change from the block in use weighs."""

    movement: Weight = Field(description="A movement in or out of a day of a phase.")
    shape_moved: Weight = Field(description="A session on another day.")
    set: Weight = Field(description="A set more or less.")


class RevisePrices(Model):
    """What each change of a running block weighs when the rest of it is planned anew. A load alone is no change."""

    day_moved: Weight = Field(description="A session on another weekday.")
    shapes_swapped: Weight = Field(description="Two days that change their kinds of session.")
    main_lift_replaced: Weight = Field(description="Another main lift on a day of a phase.")
    replaced: Weight = Field(description="Another movement of the same part on a day of a phase.")
    replaced_in_family: Weight = Field(description="Another movement of the same family there.")
    dropped: Weight = Field(description="A movement that leaves a day of a phase.")
    added: Weight = Field(description="A movement that is new on a day of a phase.")
    set: Weight = Field(description="A set more or less.")
    main_lift_set: Weight = Field(description="The same of a main lift.")
    contacts: Annotated[int, Field(ge=1, le=50)] = Field(description="This number of contacts weighs as much as a set.")
    first_week_factor: Annotated[int, Field(ge=1, le=10)] = Field(
        description="How many times a change weighs in the first week, whose cards hang in the gym."
    )
