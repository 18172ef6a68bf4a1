"""Bands worked by hand on an invented template: without a width, a band is the very figure that its week aims at."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest

from planner.domain.template import Template, WeekBudget, WeekPlan
from planner.domain.template_weekly import TargetJump, TargetJumps, WeeklySets
from planner.domain.terms import LIFT_QUALITIES
from planner.estimate.emphasis import Freed
from planner.problem.build import NO_START_LIMITS
from planner.problem.model import Range, StartLimits, WeekBands
from planner.problem.week_bands import start_limits, week_bands
from planner.problem.week_centres import BudgetInputs
from tests.problem.test_bands import budget
from tests.solve.demos import template

ROLES = ("build", "build", "deload", "intensify", "taper")
NO_WIDTH = {"fraction": 0.0, "least_sets": 0.0, "least_contacts": 0, "least_approach": 0, "least_sprints": 0}
NO_GROWTH = {"ratio": 1.0, "step": 0}
AS_IT_LIKES = {"ratio": 3.0, "step": 100}
NO_LIMITS = StartLimits(sets=1000, contacts=10000, high=1000, sprints=1000)
A_WEEK = {"sets": 8.0, "contacts": 100, "medium": 40, "high": 10, "approach": 4, "sprints": 8}
RECENT = {"weekly_contacts": 1000, "weekly_high_contacts": 100, "weekly_sprints": 100, "weekly_working_sets": 100}


def invented(weeks: list[dict[str, Any]], roles: tuple[str, ...] = ROLES, growth: Any = None, **more: Any) -> Template:
    """One level, a line a week; half of the lines' high contacts are medium ones where the tier is closed."""
    shipped = template("eight-week")
    lines = [{**A_WEEK, **line} for line in weeks]
    budgets = tuple(
        WeekBudget.model_validate({**line, "sets": dict.fromkeys(LIFT_QUALITIES, line["sets"])}) for line in lines
    )
    level = shipped.levels["intermediate"]
    limits = {name: growth or AS_IT_LIKES for name in type(level.growth).model_fields}
    level = level.model_copy(update={"weeks": budgets, "growth": type(level.growth).model_validate(limits)})
    sections = {
        "band_width": NO_WIDTH,
        "floors": {"sets": {"build": 0.5}, "contacts": {"build": 0.25}, "primer_contacts": 20},
        "deload": {"low": 0.3, "high": 0.6, "aim_under": 0.1},
        "taper": {"low": 0.4, "high": 0.6, "small": 8},
        "minutes_per": {"day": 10, "set": 1, "sprint": 3, "low_contact": 0.5, "medium_contact": 1, "high_contact": 2},
        **more,
    }
    changed = {name: getattr(shipped, name).model_copy(update=lines) for name, lines in sections.items()}
    return shipped.model_copy(
        update={
            **changed,
            "weeks": tuple(WeekPlan(phase=role if role != "deload" else "build", role=role) for role in roles),  # type: ignore[arg-type]
            "levels": {"novice": level, "intermediate": level},
            "reference_week": 4,
            "sets_per_credited_set": 2.0,
            "start_growth": 1.0,
            "maintenance_share": 0.5,
            "weekly_sets": (),
            "target_jumps": None,
        }
    )


def asked(plan: Template, **changes: Any) -> BudgetInputs:
    """Five weeks of an athlete who has done a lot and whose week 1 is the template's."""
    return budget(template=plan, recent=RECENT, **changes)


def aims(bands: WeekBands) -> dict[str, float]:
    """What a week aims at. Raises AssertionError where a band has a width."""
    ranges = {**bands.tiers, "contacts": bands.contacts, "approach": bands.approach, "sprints": bands.sprints}
    [sets] = set(bands.quarter_sets.values())
    ranges["sets"] = sets
    assert all(one.low == one.high for one in ranges.values()), ranges
    return {name: one.low / 4 if name == "sets" else one.low for name, one in sorted(ranges.items())}


def week(given: BudgetInputs, number: int = 1, limits: StartLimits | None = NO_LIMITS) -> dict[str, float]:
    return aims(week_bands(given, limits)[number])


def line(**changes: float) -> dict[str, float]:
    """The plain week with these figures changed; the low tier is what the others leave."""
    plain = {"sets": 8, "contacts": 100, "medium": 40, "high": 10, "approach": 4, "sprints": 8, **changes}
    return dict(sorted({"low": plain["contacts"] - plain["medium"] - plain["high"], **plain}.items()))


PLAIN = invented([{}] * 5)
OWN_JUMP_ONLY = {"high_tier_open": False, "own_jump_open": True}  # 4 of 10 high contacts, and half of the other 6
# 12.5 high contacts and 112.5 in all are whole ones in a band; the low tier keeps its 50.
FREED_WEEK = line(sets=6, contacts=113, medium=50, high=13, low=50, sprints=10)
# Who is planned for, and what week 1 then aims at.
FIRST_WEEKS: list[tuple[str, dict[str, Any], dict[str, float]]] = [
    ("as the template's line", {}, line()),
    ("half of the days", {"day_factor": 0.5}, line(sets=4, contacts=50, medium=20, high=5, approach=2, sprints=4)),
    ("more speed", {"tilts": {"speed-exposure": 1.5}}, line(high=15, sprints=12)),
    ("no tilt at all", {"tilts": {}}, line()),
    ("a closed high tier", {"high_tier_open": False}, line(medium=45, high=0, approach=0)),
    (
        "a closed high tier on fewer days",
        {"high_tier_open": False, "day_factor": 0.4},
        line(sets=3.25, contacts=40, medium=18, high=0, approach=0, sprints=4),  # whole quarters, whole sprints
    ),
    ("the own jump alone", OWN_JUMP_ONLY, line(medium=43, high=4)),
    (
        "the own jump alone on fewer days",
        {**OWN_JUMP_ONLY, "day_factor": 0.5},
        line(sets=4, contacts=50, medium=22, high=2, approach=2, sprints=4, low=27),  # 21.5, in whole contacts
    ),
    ("a surplus in every lift", {"freed": Freed(0.75, 1.25, 1.25)}, FREED_WEEK),
    ("a youth's most", {"youth": True}, line(contacts=90)),
    ("sport takes low contacts", {"weekly_sport_contacts": dict.fromkeys(range(1, 6), 10)}, line(contacts=90)),
    ("sport leaves a primer", {"weekly_sport_contacts": dict.fromkeys(range(1, 6), 45)}, line(contacts=70)),
    ("strong and sure, while building", {"strong_and_sure": True}, line()),
    ("just the minutes", {"weekly_minutes": dict.fromkeys(range(1, 6), 40 + 64 + 24 + 25 + 40 + 20)}, line()),
]


@pytest.mark.parametrize(("who", "aimed"), [one[1:] for one in FIRST_WEEKS], ids=[one[0] for one in FIRST_WEEKS])
def test_a_week_aims_at_the_template_s_line_for_this_athlete(who: dict[str, Any], aimed: dict[str, float]) -> None:
    youth = PLAIN.youth.model_copy(update={"contacts_week": 90})
    gates = PLAIN.gates.model_copy(update={"closed_high_as_medium": 0.5})
    assert week(asked(PLAIN.model_copy(update={"youth": youth, "gates": gates}), **who)) == aimed


def test_the_sets_of_a_quality_may_have_a_factor_of_their_own() -> None:
    given = asked(PLAIN, day_factor=0.5, set_factors={"maximal-strength": 0.75})
    sets = week_bands(given, NO_LIMITS)[1].quarter_sets
    strength = sets.pop("maximal-strength")
    assert (strength.low, strength.high, {(one.low, one.high) for one in sets.values()}) == (24, 24, {(16, 16)})


def test_a_standing_jumper_has_no_approach_and_no_test_jumps_off_it() -> None:
    given = asked(PLAIN)
    standing = given.athlete.model_copy(update={"approach": given.athlete.approach.model_copy(update={"steps": 0})})
    assert week(replace(given, athlete=standing)) == line(approach=0)
    taper = {"contacts": 50, "medium": 20, "high": 5, "sprints": 4, "sets": 4, "approach": 0}
    assert week(replace(given, athlete=standing), 5) == line(**taper)


def test_one_load_week_without_a_high_tier_closes_it_for_its_phase() -> None:
    """A deload without it does not, nor does a week of another phase."""
    assert week(asked(invented([{}, {"high": 0}, {}, {}, {}]))) == line(medium=45, high=0, approach=0)
    assert week(asked(invented([{}, {}, {"high": 0}, {"high": 0}, {}]))) == line()


def test_one_load_week_without_the_own_jump_closes_it_for_its_phase() -> None:
    assert week(asked(invented([{}, {"approach": 0}, {}, {}, {}]), **OWN_JUMP_ONLY)) == line(
        medium=45, high=0, approach=0
    )


def test_what_is_surely_short_begins_at_the_middle_of_its_band_in_load_weeks() -> None:
    """8 sets are 32 quarters; a tenth either way is 28.8 to 35.2, and a band is at least 1.5 sets wide."""
    plan = invented([{}] * 5, band_width={**NO_WIDTH, "fraction": 0.1, "least_sets": 1.5})
    bands = week_bands(asked(plan, surely_short=("calf-ankle",)), NO_LIMITS)
    assert bands[1].quarter_sets["calf-ankle"] == Range(32, 38)
    assert bands[1].quarter_sets["knee-dominant"] == Range(29, 35)
    assert bands[3].quarter_sets["calf-ankle"] == bands[3].quarter_sets["knee-dominant"]  # a deload


def test_what_makes_room_for_the_surely_short_ends_a_quarter_set_over_its_own_share() -> None:
    """Tilts of 1.4, 1, 1 and 1.1 on 32 sets: 1.4 of 4.4 for the sure one, and of the rest 1.1 of 3.1 for the other."""
    plan = invented([{}] * 5, band_width={**NO_WIDTH, "fraction": 0.25, "least_sets": 1.5})
    tilts = {"maximal-strength": 1.4, "unilateral-hip": 1.0, "knee-dominant": 1.0, "calf-ankle": 1.1}
    free = week_bands(asked(plan, tilts=tilts), NO_LIMITS)[1].quarter_sets
    held = week_bands(asked(plan, tilts=tilts, surely_short=("maximal-strength",)), NO_LIMITS)
    sure = 32 * 1.4 / 4.4
    other = (32 - sure) * 1.1 / 3.1
    assert free["knee-dominant"].high == math.floor(1.25 * 4 * 32 / 4.5) > 33
    assert held[1].quarter_sets["knee-dominant"].high == 4 * 8 + 1
    assert held[1].quarter_sets["maximal-strength"].low == math.ceil(4 * sure)
    assert held[1].quarter_sets["calf-ankle"].high == math.floor(1.25 * 4 * other) > 33  # short itself
    assert held[3].quarter_sets["knee-dominant"].high < 33  # a deload


def test_where_minutes_are_short_everything_shrinks_alike_and_sets_down_to_their_floor() -> None:
    """64 working sets of a minute, two for each that counts; 24 min of sprints, 25, 40 and 20 of contacts; four days
    of 10: 213 in all."""
    half = asked(PLAIN, weekly_minutes=dict.fromkeys(range(1, 6), 40 + 173 / 2))
    assert week(half) == line(sets=4, contacts=50, medium=20, high=5, approach=2, sprints=4)
    none = week(asked(PLAIN, weekly_minutes=dict.fromkeys(range(1, 6), 30)))
    assert none == line(sets=4, contacts=0, medium=0, high=0, approach=0, sprints=0)
    idle = {"sets": 0.0, "contacts": 0, "medium": 0, "high": 0, "approach": 0, "sprints": 0}
    assert set(week(asked(invented([idle] * 5), weekly_minutes=dict.fromkeys(range(1, 6), 30))).values()) == {0}


def test_a_minute_too_few_is_felt() -> None:
    """No week is left as it is that does not fit: 212 of 213 minutes, and a floor of 24.9 contacts instead of 25."""
    bands = week_bands(asked(PLAIN, weekly_minutes=dict.fromkeys(range(1, 6), 212)), NO_LIMITS)[1]
    assert bands.floor_contacts == 24


def test_a_deload_aims_under_the_largest_share_of_the_load_week_before() -> None:
    """Half of week 2, since the largest is 0.6 and bands aim 0.1 below it; a line that asks for less keeps it."""
    half = line(sets=4, contacts=50, medium=20, high=5, approach=4, sprints=4)
    assert week(asked(PLAIN), 3) == half
    less = {"sets": 2.0, "contacts": 24, "medium": 12, "high": 2, "approach": 2, "sprints": 2}
    assert week(asked(invented([{}, {}, less, {}, {}])), 3) == line(**less)
    tall = invented([{}, {"contacts": 200, "high": 2, "sprints": 4}, {}, {}, {}])
    assert week(asked(tall), 3) == line(sets=4, medium=20, high=1, approach=1, sprints=2, contacts=71)


def test_a_taper_aims_at_the_middle_of_its_share_of_the_reference_week() -> None:
    """Half of week 4; the last day's test of five jumps is in the high tier."""
    given = asked(
        invented([{}, {}, {}, {"contacts": 160, "high": 20, "approach": 14, "sprints": 12, "sets": 10.0}, {}])
    )
    assert week(given, 5) == line(sets=5, contacts=80, medium=20, high=10, approach=7, sprints=6)
    mixed = asked(invented([{}, {}, {}, {"high": 20, "approach": 20}, {"medium": 12, "approach": 0}]))
    assert week(mixed, 5) == line(sets=4, contacts=50, medium=12, high=10, approach=10, sprints=4)
    cut = replace(mixed, day_share={**given.day_share, 5: 0.5})
    assert week(cut, 5) == line(sets=2, contacts=25, medium=6, high=5, approach=5, sprints=2)
    lost = asked(invented([{}, {"approach": 10}, {}, {}, {}]))  # a day of week 4: then week 2 is the last whole one
    lost = replace(lost, day_share={**given.day_share, 4: 0.5})
    assert week(lost, 5) == line(sets=4, contacts=50, medium=20, high=5, approach=5, sprints=4)


def test_a_load_week_after_the_reference_week_is_no_taper() -> None:
    roles = ("build", "build", "deload", "intensify", "intensify")
    assert week(asked(invented([{"approach": 6}] * 5, roles)), 5) == line(approach=6)


def test_the_closing_test_s_jumps_fit_into_its_week() -> None:
    """Five of them: the bands' ends rise to hold them, where there is a run-up to jump off."""
    bands = week_bands(asked(invented([{"high": 2, "approach": 1}] * 5)), NO_LIMITS)
    assert (bands[5].tiers["high"], bands[5].approach) == (Range(1, 5), Range(1, 5))
    assert bands[4].tiers["high"] == Range(2, 2)


CAPS: list[tuple[StartLimits, dict[str, float]]] = [
    (replace(NO_LIMITS, sets=32), line(sets=4)),
    (replace(NO_LIMITS, sets=64), line()),
    (replace(NO_LIMITS, high=3), line(contacts=93, high=3, approach=3)),
    (replace(NO_LIMITS, high=6), line(contacts=96, high=6)),
    (replace(NO_LIMITS, contacts=80), line(contacts=80)),
    (replace(NO_LIMITS, contacts=30), line(contacts=30, medium=20)),
    (replace(NO_LIMITS, contacts=5), line(contacts=10, medium=0)),
    (replace(NO_LIMITS, sprints=5), line(sprints=5)),
]


@pytest.mark.parametrize(("limits", "aimed"), CAPS)
def test_the_start_caps_the_first_load_week_alone(limits: StartLimits, aimed: dict[str, float]) -> None:
    assert week(asked(PLAIN), 1, limits) == aimed
    assert week(asked(PLAIN), 2, limits) == line()
    if limits.sets < 64:  # floors fall with what the week aims at
        assert set(week_bands(asked(PLAIN), limits)[1].floor_quarter_sets.values()) == {8}


def test_a_load_week_grows_by_its_ratio_and_step_from_the_load_week_before() -> None:
    """From half of it in week 1, over the deload too: each currency to 1.5 times and 1 more."""
    half = {"sets": 4.0, "contacts": 50, "medium": 20, "high": 4, "approach": 2, "sprints": 4}
    full = {"approach": 10}
    grown = line(sets=7, contacts=76, medium=31, high=7, approach=7, sprints=7)
    steps = {"ratio": 1.5, "step": 1}
    assert week(asked(invented([half, full, {}, {}, {}], growth=steps)), 2) == {**grown, "low": 38, "contacts": 76}
    roles = ("build", "deload", "intensify", "intensify", "taper")
    after = week(asked(invented([half, {}, full, {}, {}], roles, growth=steps)), 3)
    assert after == {**grown, "low": 38, "contacts": 76}
    assert week(asked(invented([{}, half, {}, {}, {}], growth=NO_GROWTH)), 2) == line(**half)


def test_contacts_that_grow_too_fast_in_all_come_off_the_low_tier() -> None:
    plan = invented([{"contacts": 60}, {"contacts": 100}, {}, {}, {}])
    level = plan.levels["intermediate"]
    growth = level.growth.model_copy(update={"contacts": type(level.growth.contacts)(ratio=1.5, step=0)})
    plan = plan.model_copy(update={"levels": {"intermediate": level.model_copy(update={"growth": growth})}})
    assert week(asked(plan), 2) == line(contacts=90)
    growth = growth.model_copy(update={"contacts": type(level.growth.contacts)(ratio=0.5, step=0)})
    plan = plan.model_copy(update={"levels": {"intermediate": level.model_copy(update={"growth": growth})}})
    assert week(asked(plan), 2) == line(contacts=50)


def test_a_week_that_lost_days_is_no_measure_for_growth_and_has_no_floor_of_contacts() -> None:
    given = asked(invented([{}] * 5, growth=NO_GROWTH), day_share={1: 1.0, 2: 0.5, 3: 1.0, 4: 1.0, 5: 0.5})
    bands = week_bands(given, NO_LIMITS)
    assert aims(bands[2]) == line(sets=4, contacts=50, medium=20, high=5, approach=2, sprints=4)
    assert aims(bands[4]) == line()
    assert [bands[number].floor_contacts for number in (1, 2)] == [25, 0]
    assert set(bands[2].floor_quarter_sets.values()) == {8}


def test_floors_are_whole_quarters_of_sets_and_whole_contacts_and_fall_where_days_are_away() -> None:
    floors = {"sets": {"build": 0.3, "taper": 0.5}, "contacts": {"build": 0.255, "taper": 0.5}, "primer_contacts": 20}
    plan = invented([{}] * 5, floors=floors)
    bands = week_bands(asked(plan), NO_LIMITS)
    assert set(bands[1].floor_quarter_sets.values()) == {9}  # 9.6
    assert bands[1].floor_contacts == 25  # 25.5
    assert set(bands[5].floor_quarter_sets.values()) == {16} and bands[5].floor_contacts == 25
    assert bands[3].floor_contacts == 0 and not any(bands[3].floor_quarter_sets.values())
    away = week_bands(asked(plan, day_share={1: 1.0, 2: 0.9, 3: 1.0, 4: 1.0, 5: 0.9}), NO_LIMITS)
    assert not any(away[5].floor_quarter_sets.values()) and all(away[2].floor_quarter_sets.values())
    alone = week_bands(asked(plan, only_the_test_jumps=True), NO_LIMITS)
    assert [alone[number].floor_contacts for number in (1, 5)] == [25, 0]


def test_a_strong_athlete_maintains_strength_once_intensity_rises() -> None:
    sure = week_bands(asked(PLAIN, strong_and_sure=True), NO_LIMITS)[4].quarter_sets
    assert sure["maximal-strength"] == Range(16, 16) and sure["calf-ankle"] == Range(32, 32)
    tilted = asked(PLAIN, strong_and_sure=True, tilts={"maximal-strength": 0.25})  # 2 of 26, of 32 in all
    assert week_bands(tilted, NO_LIMITS)[4].quarter_sets["maximal-strength"] == Range(10, 10)


def test_a_band_is_a_fraction_to_either_side_and_never_narrower_than_its_least_width() -> None:
    widths = {"fraction": 0.25, "least_sets": 1.0, "least_contacts": 6, "least_approach": 3, "least_sprints": 5}
    bands = week_bands(asked(invented([{}] * 5, band_width=widths)), NO_LIMITS)[1]
    assert bands.quarter_sets["calf-ankle"] == Range(24, 40)
    assert bands.contacts == Range(75, 125)
    assert bands.tiers == {"low": Range(38, 62), "medium": Range(30, 50), "high": Range(7, 13)}
    assert bands.approach == Range(3, 6) and bands.sprints == Range(6, 11)
    none = invented([{"high": 0, "approach": 0, "sprints": 0, "sets": 1.0}] * 5, band_width=widths)
    bands = week_bands(asked(none), NO_LIMITS)[1]
    assert bands.tiers["high"] == bands.approach == bands.sprints == Range(0, 0)
    assert bands.quarter_sets["calf-ankle"] == Range(2, 6)


def test_the_most_of_week_one_is_the_recent_load_and_never_under_the_lowest_level_s_line() -> None:
    """The lowest line has 32 sets of the qualities, hence 64 in all, 100 contacts, 10 of them high, and 8 sprints."""
    plan = PLAIN.model_copy(update={"start_growth": 1.5, "sets_per_credited_set": 2.0})
    much = {"weekly_contacts": 201, "weekly_high_contacts": 21, "weekly_sprints": 11, "weekly_working_sets": 45}
    sport = {1: 50, 2: 500}
    given = budget(template=plan, recent=much, weekly_sport_contacts=sport, day_factor=0.5)
    assert start_limits(given) == StartLimits(sets=67, contacts=251, high=31, sprints=16)
    little = dict.fromkeys(much, 1)
    given = budget(template=plan, recent=little, weekly_sport_contacts=sport, day_factor=0.5)
    assert start_limits(given) == StartLimits(sets=32, contacts=50, high=5, sprints=4)
    unsaid = start_limits(budget(template=plan, recent={**little, "weekly_high_contacts": None}))
    assert unsaid is not None and unsaid.high == NO_START_LIMITS.high
    assert start_limits(budget(template=plan)) is None


def test_sets_on_top_of_the_usual_ones_leave_fewer_for_the_qualities() -> None:
    """34 sets in all, 2 on top, and 2 sets for each credited one: 16 credited sets, 4 for each quality."""
    on_top = PLAIN.model_copy(update={"weekly_sets": (WeeklySets(pattern="knee-flexion", sets=2, on_top=2),)})
    assert week(asked(on_top), 1, replace(NO_LIMITS, sets=34)) == line(sets=4)
    used_to_little = budget(template=on_top, recent=dict.fromkeys(RECENT, 1), day_factor=0.5)
    lowest = start_limits(used_to_little)
    assert lowest is not None and lowest.sets == 32 + 2  # half of 64, and the 2 that the lowest line asks as well
    free = PLAIN.model_copy(update={"weekly_sets": (WeeklySets(pattern="knee-flexion", sets=2),)})
    assert week(asked(free), 1, replace(NO_LIMITS, sets=32)) == line(sets=4)


def test_a_sore_tendon_moves_half_of_its_high_contacts_to_the_medium_tier() -> None:
    """Of 10 high contacts 4 stay, and 3 of the other 6 become medium ones."""
    assert week(asked(PLAIN, most_high=4.0)) == line(medium=43, high=4)
    assert week(asked(PLAIN, most_high=2.0)) == line(medium=44, high=2, approach=2)  # of 4 off the run-up


def test_a_target_jump_of_the_medium_tier_has_room_in_its_band() -> None:
    """42 of the jump itself and 3 beside it, where the line aims at 40; the low tier gives way."""
    jump = TargetJump(least=42, later_least=47, effort_percent=100)
    jumps = TargetJumps(
        standing=jump, run_up=jump, other_jumps_standing=3, least_with_pain=6, much_sport_contacts=100,
        least_with_much_sport=4,
    )  # fmt: skip
    plan = PLAIN.model_copy(update={"target_jumps": jumps})
    given = asked(plan)
    standing = given.athlete.model_copy(update={"approach": given.athlete.approach.model_copy(update={"steps": 0})})
    given = replace(given, athlete=standing)
    assert (week(given, 1)["medium"], week(given, 4)["medium"]) == (45, 50)
    assert week(replace(given, day_share={**given.day_share, 2: 0.8}), 2)["medium"] == 36  # of 45
    assert week(asked(plan))["medium"] == 40  # off a run-up the jump is of the high tier


def test_an_easy_week_after_days_lost_aims_at_its_share_and_no_other_week_does() -> None:
    easy = week_bands(asked(PLAIN, easy_weeks=(2,), easy_share=0.5), NO_LIMITS)
    assert aims(easy[2]) == line(sets=4, contacts=50, medium=20, high=5, approach=2, sprints=4)
    assert aims(easy[1]) == aims(easy[4]) == line()
    floors = [set(easy[number].floor_quarter_sets.values()) for number in (1, 2)]
    assert floors == [{16}, {8}]  # half of 8 sets, and half of 4
