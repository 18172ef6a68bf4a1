"""Who may do what: high-tier jumps, the level and week that a template has for an athlete, an extra set, the test."""

from __future__ import annotations

import datetime
from dataclasses import replace
from typing import Any

import pytest

from planner.domain.findings import UserError
from planner.domain.terms import Leg, Quality
from planner.estimate.uncertainty import Estimate
from planner.problem.build import high_tier_gate, usual_week_sets
from planner.problem.from_files import estimate_and_problem
from planner.problem.high_tier import Gate, closed_words, gate_of
from planner.problem.not_plannable import day_plan, served_level
from planner.problem.other_waves import with_kept_strength, with_known_lifts
from planner.problem.per_set import extra_stress, leg_contacts, once_seconds, tier_contacts
from planner.problem.retest import least_test_seconds, retest_movement
from planner.problem.variable import hard_key, in_key, sets_key, takes_key
from planner.problem.weaker_leg import extra_leg, extra_set
from tests.rules.kept_blocks import shipped_problem
from tests.solve.demos import athlete, inputs, problem, shipped_library, template

PLAYER, ADULT, YOUTH = "in-season-player", "adult-one-leg-jumper", "youth-two-leg-jumper"
EIGHT_WEEKS = template("eight-week")
SEEN = datetime.date(2025, 9, 1)
NEEDED_kg = 1.5 * 80  # body masses of a squat that open the high tier
OWN_JUMP, SHOCK_JUMP = (shipped_library()[name] for name in ("full-approach-jump-one-leg", "drop-jump-20"))


@pytest.mark.parametrize(
    ("squat_kg", "who", "level", "youth", "says"),
    [
        (NEEDED_kg, {}, "intermediate", False, None),
        (NEEDED_kg - 0.1, {}, "intermediate", False, "it shows 120 kg"),
        (None, {}, "intermediate", False, "it is not tested"),
        (None, {"allow": [{"rule": "high-tier-gate", "reason": "seen", "date": SEEN}]}, "intermediate", False, None),
        (
            None,
            {"allow": [{"rule": "level", "movement": "pogo", "reason": "seen", "date": SEEN}]},
            "intermediate",
            False,
            "it is not tested",
        ),
        (NEEDED_kg, {"landing": "not-yet"}, "intermediate", False, "landings do not hold"),
        (NEEDED_kg, {}, "intermediate", True, "novices and youth"),
        (NEEDED_kg, {}, "novice", False, "novices and youth"),
    ],
)
def test_the_high_tier_opens_to_a_strong_squat_or_a_coach_s_word(
    squat_kg: float | None, who: dict[str, Any], level: Any, youth: bool, says: str | None
) -> None:
    one = athlete(ADULT, {"body_mass": "80 kg", **who})
    assert EIGHT_WEEKS.gates.high_tier_squat_body_mass * one.body_mass == NEEDED_kg
    tested = None if squat_kg is None else Estimate(squat_kg, 0.0)
    gate = gate_of(one.model_copy(update={"recent_load": None}), EIGHT_WEEKS, EIGHT_WEEKS.levels[level], tested, youth)
    why = gate.why_closed(OWN_JUMP)
    assert why == gate.why_closed(SHOCK_JUMP)
    assert why is None if says is None else why is not None and says in why


def _gate(squat_kg: Estimate | None, recent: int | None = 12, gates: dict[str, Any] | None = None, **who: Any) -> Gate:
    """Of an adult of 80 kg whose usual week holds ``recent`` high contacts; 120 kg are asked."""
    one = athlete(ADULT, {"body_mass": "80 kg", **who})
    assert one.recent_load is not None
    load = one.recent_load.model_copy(update={"weekly_high_contacts": recent})
    shape = EIGHT_WEEKS.model_copy(update={"gates": EIGHT_WEEKS.gates.model_copy(update=gates or {})})
    one = one.model_copy(update={"recent_load": load})
    return gate_of(one, shape, shape.levels["intermediate"], squat_kg, False)


def test_a_squat_within_its_error_of_the_bar_opens_the_gate() -> None:
    """120 kg asked, one standard error weighed: 115 ± 5 reaches it, 114.9 ± 5 does not, and no figure weighs none."""
    assert _gate(Estimate(115, 5)).shock_open
    assert not _gate(Estimate(114.9, 5)).shock_open
    assert _gate(Estimate(110, 5), gates={"squat_errors": 2.0}).shock_open
    assert not _gate(Estimate(119.9, 5), gates={"squat_errors": None}).shock_open


def test_a_weak_squat_leaves_the_jump_that_is_done_already() -> None:
    weak = Estimate(100, 5)
    assert EIGHT_WEEKS.gates.own_jump_recent_contacts == 6
    done = _gate(weak, recent=6)
    assert done.why_closed(OWN_JUMP) is None
    assert done.why_closed(SHOCK_JUMP) == "is high tier and requires a back squat of 120 kg; it shows 100 kg (± 5 kg)"
    for gate in (
        _gate(weak, recent=5),
        _gate(weak, recent=None),
        _gate(weak, gates={"own_jump_recent_contacts": None}),
        _gate(weak, landing="not-yet"),
        _gate(weak, approach={"steps": 0}),
    ):
        assert gate.why_closed(OWN_JUMP) is not None and gate.why_closed(SHOCK_JUMP) is not None


@pytest.mark.parametrize(
    ("squat_kg", "who", "says"),
    [
        (Estimate(120, 5), {}, None),
        (
            Estimate(100, 5),
            {},
            "Shock jumps, such as drop jumps, are closed: the back squat shows 100 kg (± 5 kg); a squat "
            "of 120 kg opens them, or one that comes within its test's error of it. The jump off the run-up stays "
            "open, since a usual week already holds it.",
        ),
        (
            None,
            {"landing": "not-yet"},
            "Shock jumps, such as drop jumps, are closed, and so is the maximal jump off the run-up: landings do not "
            "hold yet, and the back squat is not tested; landings that hold and a squat of 120 kg open them, or one "
            "that comes within its test's error of it.",
        ),
        (
            Estimate(130, 5),
            {"landing": "not-yet", "approach": {"steps": 0}},
            "Shock jumps, such as drop jumps, are closed: landings do not hold yet; landings that hold open them.",
        ),
        (
            Estimate(100, 5),
            {"approach": {"steps": 0}, "print_as": {"mass": "lb"}},
            "Shock jumps, such as drop jumps, are closed: the back squat shows 220 lb (± 11 lb); a squat "
            "of 265 lb opens them, or one that comes within its test's error of it.",
        ),
    ],
)
def test_what_is_closed_by_how_much_and_what_opens_it(
    squat_kg: Estimate | None, who: dict[str, Any], says: str | None
) -> None:
    one = athlete(ADULT, {"body_mass": "80 kg", **who})
    assert closed_words(_gate(squat_kg, **who), one) == says


def test_novices_have_a_sentence_of_their_own() -> None:
    one = athlete(ADULT)
    assert closed_words(gate_of(one, EIGHT_WEEKS, EIGHT_WEEKS.levels["novice"], None, True), one) is None


def test_age_rises_on_the_birthday() -> None:
    born = athlete(ADULT, {"birth_date": datetime.date(2008, 9, 8)})
    days = [datetime.date(2026, 9, 7), datetime.date(2026, 9, 8), datetime.date(2026, 8, 9), datetime.date(2026, 10, 1)]
    assert [born.age_years(on) for on in days] == [17, 18, 17, 18]


def test_the_level_is_the_nearest_served_and_a_minor_s_the_lowest() -> None:
    levels = EIGHT_WEEKS.levels
    one = athlete(ADULT)
    advanced = one.model_copy(update={"level": "advanced"})
    without = EIGHT_WEEKS.model_copy(update={"levels": {name: levels[name] for name in ("novice", "intermediate")}})  # type: ignore[index]
    assert served_level(advanced, EIGHT_WEEKS, False) == "advanced"
    assert served_level(advanced, without, False) == "intermediate"
    assert served_level(advanced, EIGHT_WEEKS, True) == "novice"
    high = EIGHT_WEEKS.model_copy(update={"levels": {"advanced": levels["advanced"]}})
    with pytest.raises(UserError):
        served_level(one, high, False)


def test_the_fullest_week_that_the_days_and_the_level_allow() -> None:
    plans = EIGHT_WEEKS.day_plans
    only = [
        plans[0].model_copy(update={"days": days, "levels": levels})
        for days, levels in ((3, ()), (4, ("advanced",)), (2, ()))
    ]
    shape = EIGHT_WEEKS.model_copy(update={"day_plans": tuple(only)})
    one = athlete(ADULT)  # four days
    assert day_plan(one, shape, "intermediate").days == 3
    assert day_plan(one, shape, "advanced").days == 4
    few = one.model_copy(update={"training": one.training.model_copy(update={"days": one.training.days[:1]})})
    with pytest.raises(UserError) as refused:
        day_plan(few, shape, "intermediate")
    assert "at least 2" in refused.value.findings[0].hint


def test_the_usual_week_is_the_reference_week_at_the_day_factor() -> None:
    one = athlete(ADULT)
    line = EIGHT_WEEKS.levels[one.level].weeks[EIGHT_WEEKS.reference_week - 1].sets
    factor = day_plan(one, EIGHT_WEEKS, one.level).factor
    assert usual_week_sets(one, EIGHT_WEEKS) == {quality: factor * sets for quality, sets in line.items()}
    born = one.birth_date.replace(year=2007)
    limit = born.replace(year=2007 + EIGHT_WEEKS.youth.under_years)
    young = one.model_copy(update={"birth_date": born})
    novice = EIGHT_WEEKS.levels["novice"].weeks[EIGHT_WEEKS.reference_week - 1].sets
    before, on = (usual_week_sets(young, EIGHT_WEEKS, start) for start in (limit - datetime.timedelta(days=1), limit))
    assert before == {q: day_plan(young, EIGHT_WEEKS, "novice").factor * sets for q, sets in novice.items()} != on


def test_the_usual_week_of_two_days_keeps_more_of_the_main_lifts() -> None:
    one = athlete(ADULT)
    two = one.model_copy(update={"training": one.training.model_copy(update={"days": one.training.days[:2]})})
    plan = day_plan(two, EIGHT_WEEKS, two.level)
    line = EIGHT_WEEKS.levels[two.level].weeks[EIGHT_WEEKS.reference_week - 1].sets
    factors = {**dict.fromkeys(line, plan.factor), **plan.set_factors}
    assert usual_week_sets(two, EIGHT_WEEKS) == {quality: factors[quality] * sets for quality, sets in line.items()}
    assert factors["maximal-strength"] > plan.factor


@pytest.mark.parametrize(
    ("movement", "weaker", "leg"),
    [
        ("rear-foot-split-squat", {"unilateral-hip": "left"}, "left"),
        ("rear-foot-split-squat", {"unilateral-hip": "left", "calf-ankle": "right"}, "left"),
        ("rear-foot-split-squat", {"calf-ankle": "right"}, None),
        ("back-squat", {"maximal-strength": "left"}, None),
        ("full-approach-jump-one-leg", {"speed-exposure": "left"}, None),
    ],
)
def test_an_extra_set_is_for_one_leg_lifts_that_train_the_weak_quality_in_full(
    movement: str, weaker: dict[Quality, Leg], leg: Leg | None
) -> None:
    assert extra_leg(shipped_library()[movement], weaker) == leg


def test_an_extra_set_takes_its_side_s_time_and_stress() -> None:
    planned = shipped_problem("adult")
    entry = next(e for e in planned.week_entries(1) if e.movement.id == "rear-foot-split-squat")
    extra = extra_set(entry.movement, entry.dosage, {"unilateral-hip": "left"})
    assert extra is not None
    assert extra.seconds == round(entry.movement.dose.set_time + entry.movement.dose.rest)
    assert extra.stress == {joint: units for (joint, leg), units in entry.dosage.stress.items() if leg == "left"}
    given = type(entry)(1, 1, entry.movement, type(entry.dosage)(**{**vars(entry.dosage), "extra": extra}), None)
    joint = next(iter(extra.stress))
    assert extra_stress(joint, "left")(given) == extra.stress[joint] > 0
    assert extra_stress(joint, "right")(given) == extra_stress(joint, "left")(entry) == 0
    assert once_seconds(given) == once_seconds(entry) + extra.seconds == entry.dosage.ramp_seconds + extra.seconds
    barred = type(entry.dosage)(**{**vars(entry.dosage), "high_sets": 0})
    assert extra_set(entry.movement, barred, {"unilateral-hip": "left"}) is None


def test_contacts_are_counted_in_their_own_tier_and_leg_alone() -> None:
    jump = next(e for e in shipped_problem("adult").week_entries(1) if e.movement.id == "full-approach-jump-one-leg")
    assert [tier_contacts(tier)(jump) for tier in ("low", "medium", "high")] == [0, 0, 1]
    assert [leg_contacts("high", leg)(jump) for leg in ("left", "right")] == [1, 0]
    assert leg_contacts("low", "left")(jump) == 0


def test_the_test_of_a_block_is_its_jumps_one_by_one() -> None:
    planned = shipped_problem("adult")
    (entry,) = planned.entries[planned.last_week, planned.test_slot]
    dose, plan = entry.dosage, planned.template.test_day
    assert (dose.reps, dose.contacts, dose.sprints, dose.tier) == (1, 1, 0, "high")
    assert dose.low_sets == dose.high_sets == plan.practice_jumps + plan.counted_jumps
    assert dose.set_seconds == plan.jump_s + plan.rest_s
    assert planned.last_week == len(planned.template.weeks) == planned.weeks[-1] and planned.weeks[0] == 1


@pytest.mark.parametrize(
    ("take_off", "steps", "name", "like"),
    [
        ("one-leg left", 7, "Test jump off 7 steps, one leg", "run-up"),
        ("two-leg", 3, "Test jump off 3 steps, two legs", "run-up"),
        ("two-leg", 0, "Test jump from a stand, two legs", "standing"),
    ],
)
def test_the_test_is_like_the_most_intense_such_jump_of_the_library(
    take_off: str, steps: int, name: str, like: str
) -> None:
    who = athlete(PLAYER).model_copy(update={"take_off": take_off})
    who = who.model_copy(update={"approach": who.approach.model_copy(update={"steps": steps})})
    library = shipped_library()
    test = retest_movement(who, library)
    assert test.name == name and test.jump is not None
    assert (test.jump.approach, test.jump.take_off_leg_only) == (like, take_off != "two-leg")
    assert (test.jump.effort_percent, test.jump.contacts_per_rep) == (100, 1)
    assert (test.dose.set_time, test.dose.rest, test.jump.rebound) == (0, 0, False)  # the template has its time
    stresses = [
        (["low", "medium", "high"].index(m.jump.tier), m.id, dict(m.stress))
        for m in library
        if m.jump is not None
        and (m.jump.direction, m.jump.approach, m.jump.effort_percent, m.jump.drop) == ("vertical", like, 100, None)
        and (m.legs == "both") == (take_off == "two-leg")
        and not m.equipment
    ]
    assert dict(test.stress) == max(stresses)[-1]
    bare = retest_movement(who, replace(library, movements={}))
    assert dict(bare.stress) == {"achilles-ankle": 2, "patellar-knee": 2} and bare.jump is not None
    assert bare.jump.tier == "medium"


def test_a_youth_keeps_the_larger_of_two_reserves() -> None:
    def reserves(demo: str) -> list[int]:
        given = inputs(demo)
        youth = given.template.youth.model_copy(update={"least_reserve": 5})
        given = replace(given, template=given.template.model_copy(update={"youth": youth}))
        entries = estimate_and_problem(given)[1].week_entries(1)
        return [entry.dosage.reserve for entry in entries if entry.dosage.reserve is not None]

    assert set(reserves("youth")) == {5}
    assert min(reserves("adult")) < 5


def test_a_week_that_loses_one_of_its_days_lost_days() -> None:
    planned = shipped_problem("in-season")
    one_away = replace(planned, away=frozenset({(2, 1)}))
    assert [one_away.lost_days(week) for week in one_away.weeks] == [False, True, False, False]
    assert [one_away.last_load_week_before(week) for week in (1, 2, 3, 4)] == [None, 1, 1, 3]
    assert (one_away.reference_week, replace(planned, away=frozenset({(3, 2)})).reference_week) == (3, 2)


def test_only_the_test_jumps_for_youth_in_the_last_week_where_no_day_lies_far_enough_before_it() -> None:
    """The in-season player trains on Monday and takes the test on Wednesday, two dates later."""
    planned = shipped_problem("in-season")
    limits = {apart: planned.template.youth.model_copy(update={"days_apart": apart}) for apart in (2, 3)}
    for youth, apart, week, alone in (
        (True, 3, 4, True),
        (True, 2, 4, False),
        (False, 3, 4, False),
        (True, 3, 3, False),
    ):
        template_ = planned.template.model_copy(update={"youth": limits[apart]})
        assert replace(planned, youth=youth, template=template_).only_the_test_jumps(week) is alone


def test_a_variable_that_says_what_is_done_where_chooses_and_one_that_says_how_much_does_not() -> None:
    chosen = [takes_key(1, "primer"), in_key("build", 1, "pogo"), sets_key(1, 1, "pogo"), hard_key(1, 1)]
    assert [one.chooses for one in chosen] == [True, True, False, False]
    assert len({str(one) for one in chosen}) == 4 and sets_key(1, 1, "pogo") is chosen[2]


def test_youth_ends_on_the_birthday() -> None:
    given, start = inputs("in-season"), datetime.date(2025, 9, 8)
    under = given.template.youth.under_years
    for days, young in ((0, False), (1, True)):
        born = start.replace(year=start.year - under) + datetime.timedelta(days=days)
        who = given.athlete.model_copy(update={"birth_date": born})
        assert estimate_and_problem(replace(given, athlete=who), start)[1].youth is young


@pytest.mark.parametrize(
    ("birth", "level", "open_to"),
    [
        ("2007-09-08", "intermediate", True),  # eighteen on the first day
        ("2007-09-09", "intermediate", False),
        ("1999-09-08", "novice", False),
    ],
)
def test_before_a_block_is_planned_the_gate_and_the_usual_week_are_those_of_age_and_level(
    birth: str, level: str, open_to: bool
) -> None:
    """A minor has a novice's usual week, whatever the file says."""
    start, strong = datetime.date(2025, 9, 8), Estimate(200.0, 0.0)
    assert EIGHT_WEEKS.youth.under_years == 18
    person = athlete(ADULT, {"birth_date": datetime.date.fromisoformat(birth), "level": level})
    assert high_tier_gate(person, EIGHT_WEEKS, strong, start).for_level is open_to
    usual = usual_week_sets(person, EIGHT_WEEKS, start)
    served = EIGHT_WEEKS.levels["intermediate" if open_to else "novice"].weeks[EIGHT_WEEKS.reference_week - 1].sets
    assert usual == pytest.approx(served)  # four training days: the factor is 1


@pytest.mark.parametrize(
    ("joints", "sore"),
    [
        ([], False),
        ([{"joint": "patellar-knee", "pain": 0}], False),
        ([{"joint": "hip-groin", "pain": 2}], False),
        ([{"joint": "hip-groin", "pain": 2}, {"joint": "patellar-knee", "pain": 0}], False),
        ([{"joint": "achilles-ankle", "side": "left", "pain": 1}], True),
    ],
)
def test_a_tendon_is_sore_where_the_ankle_or_the_knee_hurts(joints: list[dict[str, Any]], sore: bool) -> None:
    assert problem("in-season", {"joints": joints}).has_sore_tendon is sore


def test_a_junior_keeps_the_lifts_that_were_tested_on_a_wave_of_their_own() -> None:
    """Each shipped template puts a main lift on a novice's wave; what is a novice's already stays as it is."""
    library, shape = shipped_library(), template("youth-eight-week")
    assert library["back-squat"].level == "intermediate" and library["back-squat"].dose.scheme == "main-lift"
    known = with_known_lifts(library, shape, {"back-squat"})
    squat = known["back-squat"]
    assert (squat.level, squat.dose.scheme) == ("novice", "novice-lift")
    assert {m.id for m in known if m != library[m.id]} == {"back-squat"}
    assert with_known_lifts(library, shape, set()).movements == library.movements


def test_strength_that_is_kept_is_lifted_on_the_waves_that_the_template_names() -> None:
    library, shape = shipped_library(), template("eight-week")
    assert shape.maintenance_waves["partial-lift"] == "partial-lift-kept" and "main-lift" not in shape.maintenance_waves
    kept = with_kept_strength(library, shape)
    assert library["block-hinge"].dose.scheme == "partial-lift"
    assert kept["block-hinge"].dose.scheme == "partial-lift-kept"
    assert kept["back-squat"] == library["back-squat"]


def test_the_closing_test_takes_at_least_its_warm_up_and_its_jumps() -> None:
    """Ten minutes for the longest warm-up of a session, five jumps of 10 s with rests of 150 s."""
    shape = template("in-season-four-week", {"test_day": {"jump_s": 10, "rest_s": 150}})
    assert max(one.warm_up_minutes for one in shape.shapes) == 10
    assert (shape.test_day.practice_jumps, shape.test_day.counted_jumps) == (2, 3)
    assert least_test_seconds(shape) == 10 * 60 + 5 * (10 + 150)
