"""What a week aims at: the template's figures for level, days, recent load, sport and emphasis."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from planner.domain.athlete import Athlete
from planner.domain.template import Growth, LevelPlan, Template, WeekBudget
from planner.domain.terms import LEVELS, LIFT_QUALITIES, LOAD_ROLES, Level, Quality, Role
from planner.estimate.emphasis import NOTHING_FREED, Freed, emphasised_sets
from planner.problem.model import StartLimits


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
    set_factors: Mapping[Quality, float] = field(default_factory=dict)  # in place of the day factor

    def set_factor(self, quality: Quality) -> float:
        return self.set_factors.get(quality, self.day_factor)


def working_sets(template: Template, credited: float) -> float:
    """All working sets of a week: more than qualities are credited with, and those asked for by pattern."""
    return template.sets_per_credited_set * credited + _sets_for_no_quality(template)


def _sets_for_no_quality(template: Template) -> int:
    """Sets of a load week that the template asks for by pattern, on top of those for the qualities."""
    return sum(one.on_top for one in template.weekly_sets)


def week_centres(inputs: BudgetInputs, week: int, role: Role) -> Centres:
    budget = _budget(inputs, week)
    share = inputs.day_share[week]
    factor = inputs.day_factor * share
    plain = {q: share * inputs.set_factor(q) * budget.sets.get(q, 0.0) for q in LIFT_QUALITIES}
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


def _after_the_first_phase(template: Template, week: int) -> bool:
    """Whether it is a load week of a later phase than the first."""
    first = next((line.phase for line in template.weeks if line.role in LOAD_ROLES), None)
    line = template.weeks[week - 1]
    return line.role in LOAD_ROLES and line.phase != first


def _budget(inputs: BudgetInputs, week: int) -> WeekBudget:
    """The template's figures; one level down in the first weeks if the recent load is not known."""
    level, cautious = inputs.level, inputs.template.unknown_load_weeks
    if inputs.athlete.recent_load is None and week <= cautious and LEVELS.index(level) > 0:
        level = LEVELS[LEVELS.index(level) - 1]
    levels = inputs.template.levels
    return levels[level if level in levels else inputs.level].weeks[week - 1]


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


def scale_all(centres: Centres, share: float) -> None:
    centres.sets = {quality: share * sets for quality, sets in centres.sets.items()}
    centres.plain_sets = {quality: share * sets for quality, sets in centres.plain_sets.items()}
    for currency in ("low", "medium", "high", "approach", "sprints"):
        setattr(centres, currency, share * getattr(centres, currency))


def cap_share(centres: Centres, last: Centres, share: float) -> None:
    """No currency of a deload aims at more than its share of the last load week."""
    centres.sets = {quality: min(sets, share * last.sets[quality]) for quality, sets in centres.sets.items()}
    centres.medium, centres.high = min(centres.medium, share * last.medium), min(centres.high, share * last.high)
    centres.low = min(centres.low, max(share * last.contacts - centres.medium - centres.high, 0.0))
    centres.approach = min(centres.approach, centres.high)
    centres.sprints = min(centres.sprints, share * last.sprints)


def taper_to(centres: Centres, reference: Centres, share: float) -> None:
    """A taper aims at the middle of its share of the reference week; the mix of tiers is the template's."""
    centres.sets = {quality: share * sets for quality, sets in reference.sets.items()}
    centres.high, centres.sprints = share * reference.high, share * reference.sprints
    centres.approach = min(share * reference.approach, centres.high)
    centres.medium = min(centres.medium, share * reference.medium)
    centres.low = max(share * reference.contacts - centres.medium - centres.high, 0.0)


def cap_start(centres: Centres, limits: StartLimits, template: Template) -> None:
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


def cap_growth(centres: Centres, last: Centres, level: LevelPlan) -> None:
    growth = level.growth
    for quality in LIFT_QUALITIES:
        centres.sets[quality] = min(centres.sets[quality], grown(last.sets[quality], growth.sets))
    for tier in ("low", "medium", "high"):
        limit = grown(getattr(last, tier), getattr(growth, tier))
        setattr(centres, tier, min(getattr(centres, tier), limit))
    over = centres.contacts - grown(last.contacts, growth.contacts)
    if over > 0:
        centres.low = max(0.0, centres.low - over)
    centres.approach = min(centres.approach, centres.high)
    centres.sprints = min(centres.sprints, grown(last.sprints, growth.sprints))


def grown(value: float, growth: Growth) -> float:
    return growth.ratio * value + growth.step
