"""Budgets: what each week aims at, as bands and hard floors."""

from __future__ import annotations

import math
from dataclasses import replace

from planner.domain.template import Growth, Template
from planner.domain.terms import LEVELS, LOAD_ROLES, Quality, Role, Tier
from planner.problem.model import Range, StartLimits, WeekBands
from planner.problem.week_centres import (
    BudgetInputs,
    Centres,
    cap_growth,
    cap_share,
    cap_start,
    grown,
    scale_all,
    taper_to,
    week_centres,
    working_sets,
)


def start_limits(inputs: BudgetInputs) -> StartLimits | None:
    """The most that week 1 may hold: the recent load times the start growth, or the novice level if that is more.

    After another block, week 1 also grows from it by no more than from a load week to the next.
    """
    recent = inputs.athlete.recent_load
    if recent is None:
        return None
    template, grows = inputs.template, inputs.template.levels[inputs.level].growth

    def most(usual: float, growth: Growth) -> float:
        start = template.start_growth * usual
        return min(start, grown(usual, growth)) if inputs.follows else start

    novice = template.levels[min(template.levels, key=LEVELS.index)].weeks[0]
    novice_sets = sum(inputs.set_factor(quality) * sets for quality, sets in novice.sets.items())
    sport = inputs.weekly_sport_contacts[1]
    high = math.inf if recent.weekly_high_contacts is None else most(recent.weekly_high_contacts, grows.high)
    return StartLimits(
        sets=math.floor(max(most(recent.weekly_working_sets, grows.sets), working_sets(template, novice_sets))),
        contacts=math.floor(
            max(most(recent.weekly_contacts, grows.contacts) - sport, inputs.day_factor * novice.contacts)
        ),
        high=10**6 if math.isinf(high) else math.floor(max(high, inputs.day_factor * novice.high)),
        sprints=math.floor(max(most(recent.weekly_sprints, grows.sprints), inputs.day_factor * novice.sprints)),
    )


def week_bands(inputs: BudgetInputs, limits: StartLimits | None) -> dict[int, WeekBands]:
    """The bands of every week, within growth and start limits, so that no band asks for what a hard rule forbids."""
    template, level = inputs.template, inputs.template.levels[inputs.level]
    bands: dict[int, WeekBands] = {}
    by_week: dict[int, Centres] = {}
    last_load: Centres | None = None
    for week, plan in enumerate(template.weeks, start=1):
        centres = week_centres(inputs, week, plan.role)
        if week in inputs.easy_weeks:
            scale_all(centres, inputs.easy_share)
        if plan.role == "deload" and last_load is not None:
            cap_share(centres, last_load, template.deload.high - template.deload.aim_under)
        reference = _reference_week(inputs)
        if plan.role == "taper" and reference in by_week:
            share = inputs.day_share[week] * (template.taper.low + template.taper.high) / 2
            taper_to(centres, by_week[reference], share)
        by_week[week] = centres
        if plan.role in LOAD_ROLES:
            if last_load is None and limits is not None:
                cap_start(centres, limits, template)
            if last_load is not None:
                cap_growth(centres, last_load, level)
            if inputs.day_share[week] == 1:
                last_load = centres
        test_jumps = _test_jumps(inputs) if week == len(template.weeks) else 0
        bands[week] = _widen(centres, plan.role, template, test_jumps)
        if plan.role in LOAD_ROLES:
            bands[week] = _with_room_for_the_short(bands[week], centres, inputs)
        if inputs.day_share[week] < 1:
            bands[week] = _without_floors(bands[week], plan.role)
        if inputs.only_the_test_jumps and week == len(template.weeks):
            bands[week] = replace(bands[week], floor_contacts=0)
    return bands


def _without_floors(bands: WeekBands, role: Role) -> WeekBands:
    """For weeks with days away: the remaining days may be too close to each other, a match or the test for jumps, and
    the last session of a taper does not train every quality."""
    floors = dict.fromkeys(bands.floor_quarter_sets, 0) if role == "taper" else bands.floor_quarter_sets
    return replace(bands, floor_contacts=0, floor_quarter_sets=floors)


def _reference_week(inputs: BudgetInputs) -> int:
    """The template's reference week, or the last load week before it that lost no day, as in the Problem."""
    named, plans = inputs.template.reference_week, inputs.template.weeks
    whole = [w for w in range(1, named + 1) if plans[w - 1].role in LOAD_ROLES and inputs.day_share[w] == 1]
    return whole[-1] if whole else named


def _test_jumps(inputs: BudgetInputs) -> int:
    """High-tier contacts of the closing test, which the week's bands must have room for."""
    plan = inputs.template.test_day
    return plan.practice_jumps + plan.counted_jumps if inputs.athlete.approach.steps > 0 else 0


def _widen(centres: Centres, role: Role, template: Template, test_jumps: int) -> WeekBands:
    width, floors = template.band_width, template.floors
    tiers: dict[Tier, Range] = {
        "low": _range(centres.low, width.fraction, width.least_contacts),
        "medium": _range(centres.medium, width.fraction, width.least_contacts),
        "high": _range(centres.high, width.fraction, width.least_contacts if centres.high else 0),
    }
    approach = _range(centres.approach, width.fraction, width.least_approach if centres.approach else 0)
    if test_jumps:
        tiers["high"] = Range(tiers["high"].low, max(tiers["high"].high, test_jumps))
        approach = Range(approach.low, max(approach.high, test_jumps))
    floor_share = floors.sets.get(role, 0.0)
    return WeekBands(
        quarter_sets={q: _range(4 * s, width.fraction, 4 * width.least_sets) for q, s in centres.sets.items()},
        contacts=_range(centres.contacts, width.fraction, width.least_contacts),
        tiers=tiers,
        approach=approach,
        sprints=_range(centres.sprints, width.fraction, width.least_sprints if centres.sprints else 0),
        floor_quarter_sets={q: math.floor(4 * least) for q, least in _least_sets(centres, floor_share).items()},
        floor_contacts=math.floor(floors.contacts.get(role, 0.0) * centres.contacts),
    )


def _with_room_for_the_short(bands: WeekBands, centres: Centres, inputs: BudgetInputs) -> WeekBands:
    """The solver may sit at either end of a band, where the emphasis would not be seen: what is surely short begins at
    its middle, and what makes room for it ends a quarter set over its share before the emphasis (sets are credited in
    quarters)."""
    width = math.ceil(4 * inputs.template.band_width.least_sets)
    sets = dict(bands.quarter_sets)
    for quality, band in bands.quarter_sets.items():
        aim, plain = centres.sets[quality], centres.plain_sets[quality]
        if quality in inputs.surely_short:
            low = math.ceil(4 * aim)
            sets[quality] = Range(low, max(band.high, low + width))
        elif inputs.surely_short and aim < plain and inputs.tilts.get(quality, 1.0) <= 1.0:
            sets[quality] = Range(band.low, min(band.high, math.ceil(4 * plain) + 1))
    return replace(bands, quarter_sets=sets)


def _least_sets(centres: Centres, share: float) -> dict[Quality, float]:
    """The share of the sets before the emphasis, but at most what the week aims at: emphasis, growth and deload may all
    lower the aim."""
    return {quality: min(share * plain, centres.sets[quality]) for quality, plain in centres.plain_sets.items()}


def _range(centre: float, fraction: float, least_width: float) -> Range:
    """Whole numbers around the centre, not below zero and at least ``least_width`` apart."""
    half = max(fraction * centre, least_width / 2)
    low = math.ceil(round(centre - half, 6))
    high = max(math.floor(round(centre + half, 6)), low + math.ceil(least_width))
    return Range(max(0, low), max(0, high))
