"""Budgets: the template's figures for level, days, recent load, sport and emphasis, as bands and hard floors."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from planner.domain.athlete import Athlete
from planner.domain.template import Growth, LevelPlan, Template, WeekBudget
from planner.domain.terms import LEVELS, LIFT_QUALITIES, LOAD_ROLES, Level, Quality, Role, Tier
from planner.estimate.emphasis import NOTHING_FREED, Freed, emphasised_sets
from planner.problem.model import Range, StartLimits, WeekBands


@dataclass
class Centres:
    """A week's aims in sets, contacts and efforts, before they are widened into bands."""

    sets: dict[Quality, float]
    plain_sets: dict[Quality, float]  # before the emphasis; the basis of the floors
    medium: float
    high: float
    low: float
    approach: float
    sprints: float

    @property
    def contacts(self) -> float:
        return self.low + self.medium + self.high


@dataclass(frozen=True)
class BudgetInputs:
    athlete: Athlete
    template: Template
    level: Level
    day_factor: float
    high_tier_open: bool
    youth: bool
    tilts: dict[Quality, float]
    strong_and_sure: bool
    weekly_sport_contacts: dict[int, int]
    weekly_minutes: dict[int, int]  # gym time of the training days, without the test day
    weekly_days: dict[int, int]
    day_share: dict[int, float]  # of the routine's training days, the share that away dates leave
    only_the_test_jumps: bool  # in the last week, only the test day may have jumps
    freed: Freed = NOTHING_FREED
    surely_short: tuple[Quality, ...] = ()  # the other qualities make room for these in load weeks
    most_high: float | None = None  # contacts of the high tier that a sore tendon takes
    easy_weeks: tuple[int, ...] = ()  # after days lost
    easy_share: float = 1.0  # of what they would else aim at
    follows: bool = False  # another block, of which the recent load is what was done
    own_jump_open: bool = False  # the maximal jump off the run-up, where the rest of the high tier is closed


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
        return min(start, _grown(usual, growth)) if inputs.follows else start

    novice = template.levels[min(template.levels, key=LEVELS.index)].weeks[0]
    sport = inputs.weekly_sport_contacts.get(1, 0)
    high = math.inf if recent.weekly_high_contacts is None else most(recent.weekly_high_contacts, grows.high)
    return StartLimits(
        sets=math.floor(
            max(most(recent.weekly_working_sets, grows.sets), working_sets(template, novice, inputs.day_factor))
        ),
        contacts=math.floor(
            max(most(recent.weekly_contacts, grows.contacts) - sport, inputs.day_factor * novice.contacts)
        ),
        high=10**6 if math.isinf(high) else math.floor(max(high, inputs.day_factor * novice.high)),
        sprints=math.floor(max(most(recent.weekly_sprints, grows.sprints), inputs.day_factor * novice.sprints)),
    )


def working_sets(template: Template, budget: WeekBudget, day_factor: float = 1.0) -> float:
    """All working sets of a week that meets the budget: more than are credited to qualities, and those by pattern."""
    credited = day_factor * sum(budget.sets.values())
    return template.sets_per_credited_set * credited + _sets_for_no_quality(template)


def week_bands(inputs: BudgetInputs, limits: StartLimits | None) -> dict[int, WeekBands]:
    """The bands of every week, within growth and start limits, so that no band asks for what a hard rule forbids."""
    template, level = inputs.template, inputs.template.levels[inputs.level]
    bands: dict[int, WeekBands] = {}
    by_week: dict[int, Centres] = {}
    last_load: Centres | None = None
    for week, plan in enumerate(template.weeks, start=1):
        centres = _centres(inputs, week, plan.role)
        if week in inputs.easy_weeks:
            _scale(centres, inputs.easy_share)
        if plan.role == "deload" and last_load is not None:
            _cap_share(centres, last_load, template.deload.high - template.deload.aim_under)
        reference = _reference_week(inputs)
        if plan.role == "taper" and reference in by_week:
            share = inputs.day_share[week] * (template.taper.low + template.taper.high) / 2
            _halve(centres, by_week[reference], share)
        by_week[week] = centres
        if plan.role in LOAD_ROLES:
            if last_load is None and limits is not None:
                _cap_start(centres, limits, template)
            if last_load is not None:
                _cap_growth(centres, last_load, level)
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


def _after_the_first_phase(template: Template, week: int) -> bool:
    """Whether it is a load week of a later phase than the first."""
    first = next((line.phase for line in template.weeks if line.role in LOAD_ROLES), None)
    line = template.weeks[week - 1]
    return line.role in LOAD_ROLES and line.phase != first


def _test_jumps(inputs: BudgetInputs) -> int:
    """High-tier contacts of the closing test, which the week's bands must have room for."""
    plan = inputs.template.test_day
    return plan.practice_jumps + plan.counted_jumps if inputs.athlete.approach.steps > 0 else 0


def _budget(inputs: BudgetInputs, week: int) -> WeekBudget:
    """The template's figures; one level down in the first weeks if the recent load is not known."""
    level, cautious = inputs.level, inputs.template.unknown_load_weeks
    if inputs.athlete.recent_load is None and week <= cautious and LEVELS.index(level) > 0:
        level = LEVELS[LEVELS.index(level) - 1]
    levels = inputs.template.levels
    return levels[level if level in levels else inputs.level].weeks[week - 1]


def _centres(inputs: BudgetInputs, week: int, role: Role) -> Centres:
    budget = _budget(inputs, week)
    factor = inputs.day_factor * inputs.day_share[week]
    plain = {quality: factor * budget.sets.get(quality, 0.0) for quality in LIFT_QUALITIES}
    sets = emphasised_sets(plain, inputs.tilts, inputs.freed.lifts, inputs.surely_short)
    if inputs.strong_and_sure and _after_the_first_phase(inputs.template, week):
        # The floor falls too, or it would be above the aim.
        plain["maximal-strength"] *= inputs.template.maintenance_share
        sets["maximal-strength"] = min(sets["maximal-strength"], plain["maximal-strength"])
    speed_tilt = inputs.tilts.get("speed-exposure", 1.0)
    sprints = factor * budget.sprints * speed_tilt * inputs.freed.fast
    # A standing jumper has no approach jumps, so few kinds of work to put more high contacts into.
    fast = inputs.freed.fast if inputs.athlete.approach.steps else 1.0
    high = factor * budget.high * speed_tilt * fast
    medium = factor * budget.medium * inputs.freed.medium
    total = factor * budget.contacts
    if inputs.freed.lifts < 1:  # the low tier does not pay for it
        total += high + medium - factor * (budget.high + budget.medium)
    approach = factor * budget.approach if inputs.athlete.approach.steps else 0.0
    if not inputs.high_tier_open or not _all_phase(inputs, week, lambda line: line.high):
        keeps = inputs.own_jump_open and _all_phase(inputs, week, lambda line: line.approach)
        own = min(approach, factor * budget.high) if keeps else 0.0
        instead = inputs.template.gates.closed_high_as_medium * (factor * budget.high - own)
        high, approach, medium = own, own, medium + instead
    if inputs.most_high is not None and high > inputs.most_high:
        medium += inputs.template.gates.closed_high_as_medium * (high - inputs.most_high)
        high, approach = inputs.most_high, min(approach, inputs.most_high)
    medium = max(medium, _medium_for_the_target(inputs, week, role))
    if inputs.youth:
        total = min(total, inputs.template.youth.contacts_week)
    low = max(total - medium - high, 0.0)
    sport = inputs.weekly_sport_contacts.get(week, 0)
    primer = inputs.template.floors.primer_contacts
    low = max(low - sport, min(low, primer)) if sport else low
    centres = Centres(sets, plain, medium, high, low, approach, sprints)
    _fit_minutes(centres, inputs, week)
    return centres


def _medium_for_the_target(inputs: BudgetInputs, week: int, role: Role) -> float:
    """Where the target jump is of the medium tier: enough for it and for the week's other required jumps."""
    asked, template = inputs.template.target_jumps, inputs.template
    off_run_up = inputs.athlete.approach.steps > 0
    if asked is None or role not in LOAD_ROLES or (off_run_up and (inputs.high_tier_open or inputs.own_jump_open)):
        return 0.0
    first = next(plan.phase for plan in template.weeks if plan.role in LOAD_ROLES)
    one = asked.run_up if off_run_up else asked.standing
    least = one.least if template.weeks[week - 1].phase == first else one.later_least
    others = asked.other_jumps_run_up if off_run_up else asked.other_jumps_standing
    return float(least + others) * inputs.day_share[week]


def _sets_for_no_quality(template: Template) -> int:
    """Sets of a load week that the template asks for by pattern, on top of those for the qualities."""
    return sum(one.on_top for one in template.weekly_sets)


def _all_phase(inputs: BudgetInputs, week: int, of: Callable[[WeekBudget], float]) -> bool:
    """Whether every load week of the phase has some of it: movements stay through a phase, so one week bars all."""
    plans = inputs.template.weeks
    phase = plans[week - 1].phase
    load = [w for w, plan in enumerate(plans, start=1) if plan.phase == phase and plan.role in LOAD_ROLES]
    return all(of(_budget(inputs, w)) > 0 for w in load)


def _fit_minutes(centres: Centres, inputs: BudgetInputs, week: int) -> None:
    """Lower every currency by the same share if the week's minutes do not suffice; floors stay."""
    per = inputs.template.minutes_per
    there = inputs.weekly_minutes[week] - per.day * inputs.weekly_days[week]
    sets = inputs.template.sets_per_credited_set * sum(centres.sets.values()) + _sets_for_no_quality(inputs.template)
    needed = per.set * sets + per.sprint * centres.sprints
    needed += per.low_contact * centres.low + per.medium_contact * centres.medium + per.high_contact * centres.high
    if needed <= there or needed == 0:
        return
    share = max(there, 0) / needed
    floor = inputs.template.floors.sets.get(inputs.template.weeks[week - 1].role, 0.0)
    centres.sets = {q: max(share * sets, min(sets, floor * centres.plain_sets[q])) for q, sets in centres.sets.items()}
    for currency in ("low", "medium", "high", "approach", "sprints"):
        setattr(centres, currency, share * getattr(centres, currency))


def _scale(centres: Centres, share: float) -> None:
    centres.sets = {quality: share * sets for quality, sets in centres.sets.items()}
    centres.plain_sets = {quality: share * sets for quality, sets in centres.plain_sets.items()}
    for currency in ("low", "medium", "high", "approach", "sprints"):
        setattr(centres, currency, share * getattr(centres, currency))


def _cap_share(centres: Centres, last: Centres, share: float) -> None:
    """No currency of a deload aims at more than its share of the last load week."""
    centres.sets = {quality: min(sets, share * last.sets[quality]) for quality, sets in centres.sets.items()}
    centres.medium, centres.high = min(centres.medium, share * last.medium), min(centres.high, share * last.high)
    centres.low = min(centres.low, max(share * last.contacts - centres.medium - centres.high, 0.0))
    centres.approach = min(centres.approach, centres.high)
    centres.sprints = min(centres.sprints, share * last.sprints)


def _halve(centres: Centres, reference: Centres, share: float) -> None:
    """A taper aims at the middle of its share of the reference week; the mix of tiers is the template's."""
    centres.sets = {quality: share * sets for quality, sets in reference.sets.items()}
    centres.high, centres.sprints = share * reference.high, share * reference.sprints
    centres.approach = min(share * reference.approach, centres.high)
    centres.medium = min(centres.medium, share * reference.medium)
    centres.low = max(share * reference.contacts - centres.medium - centres.high, 0.0)


def _cap_start(centres: Centres, limits: StartLimits, template: Template) -> None:
    most_sets = max(0, limits.sets - _sets_for_no_quality(template)) / template.sets_per_credited_set
    total = sum(centres.sets.values())
    if total > most_sets:
        centres.sets = {quality: sets * most_sets / total for quality, sets in centres.sets.items()}
        centres.plain_sets = {quality: sets * most_sets / total for quality, sets in centres.plain_sets.items()}
    if centres.high > limits.high:
        centres.high, centres.approach = float(limits.high), min(centres.approach, limits.high)
    if centres.contacts > limits.contacts:
        over = centres.contacts - limits.contacts
        from_low = min(over, centres.low)
        centres.low -= from_low
        centres.medium = max(0.0, centres.medium - (over - from_low))
    centres.sprints = min(centres.sprints, limits.sprints)


def _cap_growth(centres: Centres, last: Centres, level: LevelPlan) -> None:
    growth = level.growth
    for quality in LIFT_QUALITIES:
        centres.sets[quality] = min(centres.sets[quality], _grown(last.sets[quality], growth.sets))
    for tier in ("low", "medium", "high"):
        limit = _grown(getattr(last, tier), getattr(growth, tier))
        setattr(centres, tier, min(getattr(centres, tier), limit))
    over = centres.contacts - _grown(last.contacts, growth.contacts)
    if over > 0:
        centres.low = max(0.0, centres.low - over)
    centres.approach = min(centres.approach, centres.high)
    centres.sprints = min(centres.sprints, _grown(last.sprints, growth.sprints))


def _grown(value: float, growth: Growth) -> float:
    return growth.ratio * value + growth.step


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
