"""Checks of main lifts, novices, unloaded work and emphasis: each fires on a small block, and leaves another alone."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.domain.block import Stage
from tests.coach.block_read import card_layout
from tests.coach.checks import emphasis, main_lifts, novices, sentences, unloaded
from tests.coach.made import TESTED, TOUCH, Case, Day, do, made, short

SQUAT = {"kind": "lift", **TESTED, "movement": "back-squat", "load": "120 kg", "reps": 4, "reps_in_reserve": 2}
STRONG = {"tests": [TOUCH, SQUAT]}
GOBLET = {"kind": "lift", **TESTED, "movement": "goblet-squat", "load": "20 kg", "reps": 7, "reps_in_reserve": 3}
NOVICE = {"level": "novice", "tests": [TOUCH, GOBLET]}
RAISES = {"kind": "heel-raise", **TESTED, "form": "strict", "left": 20, "right": 22}
SPLIT = {"kind": "lift", **TESTED, "movement": "rear-foot-split-squat", "load": "40 kg", "reps": 6, "side": "left"}
SHIPPED = card_layout()
BOLD_WORDS = SHIPPED.overview.model_copy(update={"proved": "Proved: no other choice of movements comes closer."})
BOLD = SHIPPED.model_copy(update={"overview": BOLD_WORDS})
OPEN = Stage(name="movements", status="feasible", objective=361, bound=171, unit="points")
BAND_SQUATS = {"mon": [do("band-goblet-squat", 3, 4, left=2)]}
HAS_RAISES = {"tests": [TOUCH, RAISES]}
LIFTS = ("maximal-strength", "unilateral-hip", "knee-dominant", "calf-ankle")


def _squats(sets: int = 3, reps: int = 3, kg: float | None = 125, percent: float | None = 88):
    return {"mon": [do("back-squat", sets, reps, kg=kg, percent=percent, left=2)]}


def _goblet(reps: int, kg: float):
    return {"mon": [do("goblet-squat", 3, reps, kg=kg, left=3)]}


def _knee(pain: int):
    return {"joints": [{"joint": "patellar-knee", "side": "left", "pain": pain}]}


def _many_sets(sets: int):
    lifts = ("back-squat", "rear-foot-split-squat", "heel-raised-one-leg-squat", "loaded-one-leg-calf-raise")
    return {"mon": [do(lift, sets, 5, kg=50) for lift in lifts]}


# A card that does not say when the next load comes, as in earlier releases.
SILENT = card_layout().model_copy(
    update={"words": card_layout().words.model_copy(update={"when_next_load": "Write it down."})}
)
SILENT = SILENT.model_copy(update={"words": SILENT.words.model_copy(update={"next_load": "Load"})})

CASES = [
    Case(
        main_lifts.main_lift_is_loaded,
        fires=made(("build", _squats()), ("intensify", BAND_SQUATS), athlete=STRONG),
        quiet=made(("build", _squats()), ("intensify", _squats()), athlete=STRONG),
    ),
    Case(
        main_lifts.maintenance_is_heavy,
        fires=made(("build", _squats()), ("intensify", _squats(4, 6, 100, 75)), athlete=STRONG,
                   qualities=[short("maximal-strength", -0.2)]),
        quiet=made(("build", _squats(4, 6, 100, 75)), ("intensify", _squats(2, 3)), athlete=STRONG,
                   qualities=[short("maximal-strength", -0.2)]),
    ),
    Case(
        main_lifts.tested_lift_has_its_load,
        fires=made(("build", {"mon": [do("rear-foot-split-squat", 3, 8, left=3)]}), athlete={"tests": [TOUCH, SPLIT]}),
        quiet=made(("build", {"mon": [do("rear-foot-split-squat", 3, 8, kg=30)]}), athlete={"tests": [TOUCH, SPLIT]}),
    ),
    Case(
        main_lifts.no_bands_where_iron_is,
        fires=made(("build", {"mon": [do("band-hinge", 3, 8, left=3)]})),
        quiet=made(("build", {"mon": [do("straight-bar-hinge", 3, 8, kg=80)]})),
    ),
    Case(
        sentences.proof_claims_ranges_alone,
        fires=replace(made(("build", _squats()), stages=[OPEN]), layout=BOLD),
        quiet=made(("build", _squats()), stages=[OPEN]),
    ),
    Case(
        novices.novice_ends_above_the_test,
        fires=made(("build", _goblet(8, 15)), ("intensify", _goblet(6, 20)), athlete=NOVICE),
        quiet=made(("build", _goblet(8, 15)), ("intensify", _goblet(9, 20)), athlete=NOVICE),
    ),
    Case(
        novices.novice_reps_fall_only_for_load,
        fires=made(("intensify", _goblet(7, 20)), ("intensify", _goblet(6, 20)), athlete=NOVICE),
        quiet=made(("intensify", _goblet(9, 20)), ("intensify", _goblet(7, 22.5)), athlete=NOVICE),
    ),
    Case(
        novices.novice_card_says_when_to_load,
        fires=replace(made(("build", _goblet(8, 15)), athlete=NOVICE), layout=SILENT),
        quiet=made(("build", {"mon": Day(_goblet(8, 15)["mon"], why="Two more left than asked: next load up.")}),
                   athlete=NOVICE),
    ),
    Case(
        unloaded.no_reserve_without_a_load,
        fires=made(("build", {"mon": [do("calf-raise", 3, 9, left=3)]})),
        quiet=made(("build", {"mon": [do("calf-raise", 3, 9), do("goblet-squat", 3, 8, kg=20, left=3)]})),
    ),
    Case(
        unloaded.tested_raises_open_one_leg,
        fires=made(("build", {"mon": [do("calf-raise", 3, 9)]}), athlete=HAS_RAISES),
        quiet=made(("build", {"mon": [do("loaded-one-leg-calf-raise", 3, 9, kg=10)]}), athlete=HAS_RAISES),
    ),
    Case(
        unloaded.unloaded_work_rises,
        fires=made(*[("build", {"mon": [do("split-squat", 3, reps)]}) for reps in (8, 8, 7)]),
        quiet=made(*[("build", {"mon": [do("split-squat", 3, reps), do("wall-sit", 3, hold=hold)]})
                     for reps, hold in ((8, 20), (9, 25), (10, 30))]),
    ),
    Case(
        emphasis.surplus_frees_time,
        fires=made(*[("build", _many_sets(9))] * 3, qualities=[short(one, -0.2) for one in LIFTS]),
        quiet=made(*[("build", _many_sets(4))] * 3, qualities=[short(one, -0.2) for one in LIFTS]),
    ),
    Case(
        emphasis.sure_deficit_is_seen,
        fires=made(*[("build", _many_sets(5))] * 3, qualities=[short("maximal-strength", 0.3)]),
        quiet=made(("build", {"mon": [*_many_sets(4)["mon"], do("straight-bar-hinge", 12, 5, kg=90)]}),
                   qualities=[short("maximal-strength", 0.3)]),
    ),
    Case(
        emphasis.deficit_is_loaded,
        fires=made(("build", {"mon": [do("loaded-one-leg-calf-raise", 3, 8, kg=20),
                                      do("one-leg-bent-knee-calf-hold", 3, hold=40)]}),
                   qualities=[short("calf-ankle", 0.11)]),
        quiet=made(("build", {"mon": [do("loaded-one-leg-calf-raise", 6, 8, kg=20),
                                      do("one-leg-bent-knee-calf-hold", 3, hold=40)]}),
                   qualities=[short("calf-ankle", 0.11)]),
    ),
    Case(
        emphasis.unsure_test_says_may,
        fires=made(("build", {"mon": Day(_squats()["mon"], why="Speed. The test asks for more calf strength.")}),
                   qualities=[short("calf-ankle", 0.11)]),
        quiet=made(("build", {"mon": Day(_squats()["mon"], why="Speed. The test asks for more calf strength.")}),
                   qualities=[short("calf-ankle", 0.25)]),
    ),
    Case(
        emphasis.age_lowers_the_ceilings,
        fires=made(("build", _squats()), athlete={"birth_date": "1984-01-01"}, ceiling=72),
        quiet=made(("build", _squats()), athlete={"birth_date": "1984-01-01"}, ceiling=60),
    ),
    Case(
        emphasis.gains_follow_training_age,
        fires=made(("build", _squats()), story=["A block has brought groups 2.7 to 5 cm at this height."]),
        quiet=made(("build", _squats()), story=["A block has brought groups with 4 years of training 2 to 3 cm."]),
    ),
]  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.check.id)
def test_fires_where_a_coach_would_and_only_there(case):
    case.hold()


def test_a_lift_on_a_joint_that_hurts_may_go_without_its_load() -> None:
    without = ("build", _goblet(8, 15)), ("intensify", _squats())
    check = novices.novice_ends_above_the_test
    assert check.breaks(made(*without, athlete={**NOVICE, **_knee(2)}))
    assert not check.breaks(made(*without, athlete={**NOVICE, **_knee(3)}))


def test_the_young_may_build_repetitions_before_loads() -> None:
    unloaded = ("build", {"mon": [do("one-leg-calf-raise", 3, 12)]})
    grown, young = (
        made(unloaded, qualities=[short("calf-ankle", 0.11)], athlete={"birth_date": f"{year}-01-01"})
        for year in (2000, 2009)
    )
    assert emphasis.deficit_is_loaded.breaks(grown)
    assert not emphasis.deficit_is_loaded.breaks(young)
