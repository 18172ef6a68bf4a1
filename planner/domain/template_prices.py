"""What things weigh against each other, each in whole points of its own question; all of it is a coach's judgement."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from planner.domain.base import Count, Model, Seq
from planner.domain.template_limits import Factor
from planner.domain.terms import Part

Weight = Annotated[int, Field(ge=1, le=5000)]


class Prices(Model):
    """What a unit of shortfall costs in stage 1, so that sets, contacts and sprints can be weighed."""

    quarter_set: Count
    contact: Count
    high_contact: Count
    sprint: Count


class Preferences(Model):
    """Stage 2: what makes one block with the same bands better to run than another. Points without a unit.

    ``movement``: one more movement on one day of a phase. ``shape_moved``: a session out of the order of the day plan.
    ``repeated``: a movement of ``varied_parts`` on a further day of a load phase and the next.
    ``no_extra_set``: a lift on both legs for what a leg is weaker in, where an extra set is asked for.
    ``level_step``: a lift a level from the athlete's own; ``jump_level_step`` the same for all else.
    ``tested_load``: taken off where the lift itself was tested, half where its reference was.
    ``untested_load``: a percentage whose reference was not tested.
    ``beginner_wave``: a lift dosed by one of ``beginner_schemes`` for an athlete who is no novice.
    ``sprint_10m_off``: each 10 m from the usual distance. ``stress_point``: a point of joint stress.
    The others: a unit away from the middle of a band.
    """

    movement: Count
    shape_moved: Count
    repeated: Count
    varied_parts: Seq[Part]
    no_extra_set: Count
    level_step: Count
    jump_level_step: Count
    tested_load: Count
    untested_load: Count
    beginner_wave: Count
    beginner_schemes: Seq[str]
    usual_sprint_m: Count
    sprint_10m_off: Count
    resisted_sprint: Count
    stress_point: Factor
    quarter_set_off: Count
    contact_off: Count
    high_contact_off: Count
    sprint_off: Count


class ChangePrices(Model):
    """What the smallest step of each change weighs where there is no block: the cheapest that gives one is named."""

    minute: Weight  # more on one day
    movement: Weight  # a ban lifted, or a word of the coach for a movement
    equipment: Weight  # a piece more
    pin: Weight  # left out
    away_date: Weight  # at home after all
    pattern_week: Weight  # a pattern not trained in one week
    quarter_set: Weight  # under a quality's floor
    contact: Weight  # under the floor of contacts


class NearPrices(Model):
    """What each change from the block in use weighs: a movement in or out of a day of a phase, a session on another
    day, a set more or less."""

    movement: Weight
    shape_moved: Weight
    set: Weight
