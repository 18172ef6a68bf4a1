"""Bands: wide enough to hold whole sets, never asking for what a hard rule forbids, following each deficit one way."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from random import Random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.domain.athlete import RecentLoad
from planner.domain.terms import LEVELS, LIFT_QUALITIES, QUALITIES, Level, Quality
from planner.problem.model import Range, WeekBands
from planner.problem.week_bands import start_limits, week_bands
from planner.problem.week_centres import BudgetInputs
from tests.solve.demos import athlete, shipped_benchmarks, template

TEMPLATES = {"eight-week": "adult-one-leg-jumper", "in-season-four-week": "in-season-player"}
LOAD = ("build", "intensify")
# What a coach may still call a range to work in.
LEAST_QUARTER_SETS, LEAST_CONTACTS, LEAST_SPRINTS = 4, 10, 2
A_LOT_OF_MINUTES = 1000
DRAWS = 3000
ROUNDED = 1  # a band's ends are whole, so its middle lies up to half a unit from what it aims at
MUCH_RECENT = {"weekly_contacts": 2000, "weekly_sprints": 20, "weekly_working_sets": 60}
FEW_RECENT = {"weekly_contacts": 60, "weekly_high_contacts": 4, "weekly_sprints": 3, "weekly_working_sets": 12}


def budget(shape: str = "eight-week", level: Level = "intermediate", **changes: Any) -> BudgetInputs:
    """A healthy adult with all the time there is, whose recent load is not known unless ``recent`` says it."""
    plan = template(shape)
    weeks = range(1, len(plan.weeks) + 1)
    recent = changes.pop("recent", None)
    who = athlete(TEMPLATES[shape]).model_copy(
        update={"recent_load": RecentLoad(**recent) if recent else None, "level": level}
    )
    plain = BudgetInputs(
        athlete=who,
        template=plan,
        level=level,
        day_factor=1.0,
        high_tier_open=True,
        youth=False,
        tilts=dict.fromkeys(QUALITIES, 1.0),
        strong_and_sure=False,
        weekly_sport_contacts=dict.fromkeys(weeks, 0),
        weekly_minutes=dict.fromkeys(weeks, A_LOT_OF_MINUTES),
        weekly_days=dict.fromkeys(weeks, 4),
        day_share=dict.fromkeys(weeks, 1.0),
        only_the_test_jumps=False,
    )
    return replace(plain, **changes)


def bands_of(given_: BudgetInputs) -> dict[int, WeekBands]:
    return week_bands(given_, start_limits(given_))


RECENT = st.none() | st.fixed_dictionaries(
    {
        "weekly_contacts": st.integers(0, 400),
        "weekly_high_contacts": st.integers(0, 40),
        "weekly_sprints": st.integers(0, 20),
        "weekly_working_sets": st.integers(0, 60),
    }
)
TILTS = st.fixed_dictionaries({quality: st.floats(0.5, 1.4) for quality in QUALITIES})
DRAWN = st.fixed_dictionaries(
    {
        "shape": st.sampled_from(sorted(TEMPLATES)),
        "level": st.sampled_from(LEVELS),
        "recent": RECENT,
        "day_factor": st.floats(0.5, 1.1),
        "high_tier_open": st.booleans(),
        "tilts": TILTS,
        "strong_and_sure": st.booleans(),
        "minutes": st.integers(60, 500),
        "sport": st.integers(0, 300),
    }
)


def drawn(lines: dict[str, Any]) -> BudgetInputs:
    lines = dict(lines)
    minutes, sport = lines.pop("minutes"), lines.pop("sport")
    plain = budget(**lines)
    weeks = plain.weekly_minutes
    return replace(
        plain, weekly_minutes=dict.fromkeys(weeks, minutes), weekly_sport_contacts=dict.fromkeys(weeks, sport)
    )


def ranges(bands: WeekBands) -> list[tuple[Range, int]]:
    """Every band of a week with its least width."""
    found = [(band, LEAST_QUARTER_SETS) for band in bands.quarter_sets.values()]
    found += [(band, LEAST_CONTACTS) for band in (bands.contacts, *bands.tiers.values())]
    return [*found, (bands.sprints, LEAST_SPRINTS)]


@settings(deadline=None)  # a busy machine is no fault of the bands
@given(DRAWN)
def test_no_band_is_too_narrow_to_work_in(lines: dict[str, Any]) -> None:
    for bands in bands_of(drawn(lines)).values():
        for band, least in ranges(bands):
            closed_or_cut_off = band.low == 0
            assert closed_or_cut_off or band.high - band.low >= least


@settings(deadline=None)  # a busy machine is no fault of the bands
@given(DRAWN)
def test_no_band_asks_for_more_than_the_start_allows(lines: dict[str, Any]) -> None:
    given_ = drawn(lines)
    limits, first = start_limits(given_), bands_of(given_)[1]
    if limits is not None:
        assert first.contacts.low <= limits.contacts
        assert first.tiers["high"].low <= limits.high
        assert first.sprints.low <= limits.sprints
        assert sum(band.low for band in first.quarter_sets.values()) <= 4 * limits.sets


@settings(deadline=None)  # a busy machine is no fault of the bands
@given(DRAWN)
def test_no_band_asks_for_more_than_growth_allows_on_the_band_before(lines: dict[str, Any]) -> None:
    given_ = drawn(lines)
    growth, bands = given_.template.levels[given_.level].growth, bands_of(given_)
    load = [week for week in bands if given_.template.weeks[week - 1].role in LOAD]
    for before, after in pairwise(load):
        assert bands[after].sprints.low <= growth.sprints.ratio * bands[before].sprints.high + growth.sprints.step
        assert bands[after].contacts.low <= growth.contacts.ratio * bands[before].contacts.high + growth.contacts.step
        for tier in ("low", "medium", "high"):
            limit = getattr(growth, tier)
            assert bands[after].tiers[tier].low <= limit.ratio * bands[before].tiers[tier].high + limit.step


@pytest.mark.parametrize("shape", sorted(TEMPLATES))
def test_the_sessions_before_the_test_have_room_for_the_calf_sets_of_the_largest_emphasis(shape: str) -> None:
    plan = template(shape)
    *_, most = shipped_benchmarks().emphasis.lift_range
    a_set = max(plan.counting.quality_quarters)
    sessions = {one.id: one for one in plan.shapes}
    in_a_movement = plan.schemes["calf-raise"].weeks[-1].sets[1]
    for days in plan.day_plans:
        movements = sum(
            part.items[1] for name in days.test_week for part in sessions[name].parts if part.part == "calf"
        )
        for level in days.levels or plan.levels:
            if level in plan.levels:
                tilts = {**dict.fromkeys(QUALITIES, 1.0), "calf-ankle": most}
                given_ = budget(shape, level, day_factor=days.factor, tilts=tilts)
                asked = bands_of(given_)[len(plan.weeks)].quarter_sets["calf-ankle"]
                assert a_set * in_a_movement * movements >= asked.low, (level, days.days)


def _spread(rng: Random) -> dict[str, Any]:
    """Inputs of all kinds; every third tilt is at an end of its range, where emphasis moves most."""
    rule = shipped_benchmarks().emphasis
    tilts = {}
    for quality in QUALITIES:
        ends = rule.speed_range if quality == "speed-exposure" else rule.lift_range
        tilts[quality] = rng.choice([*ends, rng.uniform(*ends), rng.uniform(*ends), rng.uniform(*ends)])
    return {
        "shape": rng.choice(sorted(TEMPLATES)),
        "level": rng.choice(LEVELS),
        "recent": rng.choice([None, FEW_RECENT, MUCH_RECENT]),
        "day_factor": rng.uniform(0.5, 1.1),
        "high_tier_open": rng.random() < 0.5,
        "tilts": tilts,
        "strong_and_sure": rng.random() < 0.3,
        "minutes": rng.randint(60, 500),
        "sport": rng.choice([0, 100, 300]),
    }


def _floors_at_most_the_middle(found: dict[int, WeekBands]) -> None:
    for week, bands in found.items():
        pairs = [(bands.floor_quarter_sets[q], bands.quarter_sets[q]) for q in LIFT_QUALITIES]
        for floor, band in [*pairs, (bands.floor_contacts, bands.contacts)]:
            assert floor <= (band.low + band.high + ROUNDED) / 2, (week, floor, band)


def test_no_floor_is_above_what_its_band_aims_at() -> None:
    rng = Random(1)
    for _ in range(DRAWS):
        _floors_at_most_the_middle(bands_of(drawn(_spread(rng))))


def test_the_floor_falls_with_a_band_that_the_emphasis_lowers() -> None:
    """Three qualities far behind, the calf far ahead: the calf aims at less than its usual floor."""
    tilts: dict[Quality, float] = {
        "maximal-strength": 1.4,
        "unilateral-hip": 1.4,
        "knee-dominant": 1.2,
        "calf-ankle": 0.5,
        "speed-exposure": 1.0,
    }
    found = bands_of(budget(recent=MUCH_RECENT, tilts=tilts))
    _floors_at_most_the_middle(found)
    assert (
        0
        < found[2].floor_quarter_sets["calf-ankle"]
        < bands_of(budget(recent=MUCH_RECENT))[2].floor_quarter_sets["calf-ankle"]
    )


@pytest.mark.parametrize("quality", QUALITIES)
@settings(deadline=None)  # a busy machine is no fault of the bands
@given(lines=DRAWN, more=st.floats(0.0, 0.5))
def test_a_band_never_falls_when_its_own_deficit_rises(quality: Quality, lines: dict[str, Any], more: float) -> None:
    less = drawn(lines)
    raised = replace(less, tilts={**less.tilts, quality: less.tilts[quality] + more})
    for week, bands in bands_of(less).items():
        after = bands_of(raised)[week]
        pairs = [(bands.quarter_sets[quality], after.quarter_sets[quality])] if quality in LIFT_QUALITIES else []
        if quality == "speed-exposure":
            pairs = [(bands.sprints, after.sprints), (bands.tiers["high"], after.tiers["high"])]
        for before, now in pairs:
            assert now.low >= before.low and now.high >= before.high, (week, before, now)


def test_strong_and_sure_halves_the_strength_from_intensify_on_and_its_floor_with_it() -> None:
    plain = budget(level="advanced", recent=MUCH_RECENT)
    sure = bands_of(replace(plain, strong_and_sure=True))
    for week, bands in bands_of(plain).items():
        before, after = bands.quarter_sets["maximal-strength"], sure[week].quarter_sets["maximal-strength"]
        assert after == before if week < 5 else after.high < before.low
        assert sure[week].floor_quarter_sets["maximal-strength"] <= after.low


def test_the_recent_load_caps_week_one_though_not_under_the_novice_line() -> None:
    capped, free = bands_of(budget(recent=FEW_RECENT))[1], bands_of(budget(recent=MUCH_RECENT))[1]
    novice = template("eight-week").levels["novice"].weeks[0]
    assert capped.contacts.high < free.contacts.low
    limits = start_limits(budget(recent=FEW_RECENT))
    assert limits is not None
    assert limits.contacts == max(72, novice.contacts)  # 1.2 x 60
    assert limits.sprints == max(3, novice.sprints)  # 1.2 x 3, whole
    assert limits.high == 4  # 1.2 x 4, whole; the novice line has none


def test_an_unknown_recent_load_plans_one_level_down_for_two_weeks() -> None:
    unknown, novice = bands_of(budget()), bands_of(budget(level="novice"))
    for week in (1, 2):
        assert unknown[week].quarter_sets == novice[week].quarter_sets
        assert unknown[week].sprints == novice[week].sprints
        assert unknown[week].tiers["high"] == Range(0, 0)
    known = bands_of(budget(recent=MUCH_RECENT))
    assert known[1].quarter_sets != novice[1].quarter_sets


@pytest.mark.parametrize("sport", [0, 50, 120, 1000])
def test_sport_contacts_lower_the_low_tier_alone_and_never_under_a_primer(sport: int) -> None:
    plain = budget(recent=MUCH_RECENT)
    quiet = bands_of(plain)
    busy = bands_of(replace(plain, weekly_sport_contacts=dict.fromkeys(plain.weekly_minutes, sport)))
    primer = plain.template.floors.primer_contacts
    for week in (1, 2, 3):
        assert busy[week].tiers["medium"] == quiet[week].tiers["medium"]
        assert busy[week].tiers["high"] == quiet[week].tiers["high"]
        assert busy[week].quarter_sets == quiet[week].quarter_sets
        assert busy[week].tiers["low"].high <= quiet[week].tiers["low"].high
        assert busy[week].tiers["low"].high >= primer


def test_a_week_that_loses_days_asks_for_less_and_is_no_measure_for_the_next() -> None:
    plain = budget(recent=MUCH_RECENT)
    cut = bands_of(replace(plain, day_share={**plain.day_share, 2: 0.0}))
    whole = bands_of(plain)
    assert cut[2].contacts.high <= LEAST_CONTACTS
    assert cut[2].floor_contacts == 0 and not any(cut[2].floor_quarter_sets.values())
    assert cut[3].contacts.low >= whole[1].contacts.low
    assert cut[5] == whole[5]


# A figure of the template, another value for it, and an athlete whose bands it moves.
FIGURES: list[tuple[dict[str, Any], dict[str, Any]]] = [
    ({"unknown_load_weeks": 0}, {}),
    ({"maintenance_share": 0.7}, {"level": "advanced", "strong_and_sure": True}),
    ({"gates": {"closed_high_as_medium": 0.0}}, {"recent": MUCH_RECENT, "high_tier_open": False}),
    ({"deload": {"aim_under": 0.2}}, {"recent": MUCH_RECENT}),
    ({"band_width": {"least_approach": 9}}, {"recent": MUCH_RECENT}),
    ({"sets_per_credited_set": 2.5}, {"recent": MUCH_RECENT, "weekly_minutes": dict.fromkeys(range(1, 9), 250)}),
]


@pytest.mark.parametrize(("lines", "who"), FIGURES, ids=lambda one: next(iter(one), None))
def test_a_figure_argued_with_in_the_template_moves_the_bands(lines: dict[str, Any], who: dict[str, Any]) -> None:
    shipped = budget(**who)
    assert bands_of(replace(shipped, template=template("eight-week", lines))) != bands_of(shipped)
