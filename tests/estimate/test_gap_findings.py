"""What the estimate refuses, warns of and notes: one method, one take-off, and stand-ins reported as such."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from planner.domain.findings import UserError
from planner.estimate.estimate_gap import estimate_gap
from planner.estimate.notebook import Notebook
from tests.estimate.people import DEMOS, demo, jumper, jumper_with, shipped_benchmarks

TOUCH = {"kind": "touch", "take_off": "one-leg left", "run_up": True, "trials": ["3.05 m", "3.03 m"]}
CONTACT = {"kind": "contact-time", "take_off": "one-leg left", "trials": ["0.21 s"]}


def codes(result):
    return {finding.code for finding in result.findings}


def refusal(athlete, benchmarks):
    with pytest.raises(UserError) as caught:
        estimate_gap(athlete, benchmarks)
    return {finding.code for finding in caught.value.findings if finding.level == "error"}


def test_no_test_of_the_target_jump(benchmarks):
    standing = {**TOUCH, "run_up": False}
    other_leg = {**TOUCH, "take_off": "one-leg right"}
    assert refusal(jumper([standing, other_leg]), benchmarks) == {"no-test-of-target"}


def test_flight_time_off_a_run_up_is_refused(benchmarks):
    flight = {"kind": "flight-time", "take_off": "one-leg left", "trials": ["0.66 s"]}
    assert "flight-time-off-run-up" in refusal(jumper([flight, CONTACT]), benchmarks)
    target = {"rise": "70 cm", "method": "flight-time"}
    assert "flight-time-off-run-up" in refusal(jumper([TOUCH], target=target), benchmarks)


def test_a_target_within_reach(benchmarks):
    assert refusal(jumper(target={"touch": "2.45 m", "method": "touch"}), benchmarks) == {"target-in-reach"}


def test_touch_below_reach(benchmarks):
    athlete = jumper([{**TOUCH, "trials": ["2.304 m"]}], tip_toe_reach="2.504 m")
    assert refusal(athlete, benchmarks) == {"no-rise"}
    with pytest.raises(UserError) as caught:
        estimate_gap(athlete, benchmarks)
    assert [one.message for one in caught.value.findings if one.code == "no-rise"] == [
        "the test leaves a rise of only -20 cm once reach and heel rise (12 cm) are off"
    ]


def test_a_notebook_knows_its_errors():
    notes = Notebook()
    notes.add("warning", "odd", "is odd")
    assert not notes.has_errors
    notes.add("error", "wrong", "is wrong")
    assert notes.has_errors


def test_findings_stand_where_the_caller_says(benchmarks):
    def place(keys):
        return "athlete.yaml", 7 if keys == ("target", "touch") else 1, 3

    with pytest.raises(UserError) as caught:
        estimate_gap(jumper(target={"touch": "2.45 m", "method": "touch"}), benchmarks, locate=place)
    assert [(one.path, one.line) for one in caught.value.findings if one.level == "error"] == [("athlete.yaml", 7)]


def test_other_method_stands_in_sight_with_more_error(benchmarks):
    given_rise = {"kind": "given-rise", "take_off": "one-leg left", "run_up": True, "trials": ["55 cm"]}
    converted = estimate_gap(jumper([given_rise, CONTACT]), benchmarks)
    assert "other-method" in codes(converted)
    assert converted.gap.method == "given"
    assert converted.gap.now.rise_m_se > 0.05
    assert converted.gap.inside_noise is False
    own = estimate_gap(jumper([TOUCH, CONTACT, given_rise]), benchmarks)
    assert own.gap.method == "touch"
    assert "other-method" not in codes(own)


def test_missing_contact_time_is_a_stand_in_said_aloud(benchmarks):
    result = estimate_gap(jumper([TOUCH]), benchmarks)
    assert "no-contact-time" in codes(result)
    assert "an estimate" in result.gap.contact_time_from
    assert result.gap.contact_time_s == benchmarks.take_offs["one-leg"].contact.value
    measured = estimate_gap(jumper([TOUCH, CONTACT]), benchmarks)
    assert result.force_on_curves.now.mean_ground_force_N.se > 3 * measured.force_on_curves.now.mean_ground_force_N.se


def test_jump_from_a_stand_is_a_push_off_over_a_distance(benchmarks):
    standing = {**TOUCH, "take_off": "two-leg", "run_up": False}
    result = estimate_gap(jumper([standing, CONTACT], take_off="two-leg", approach={"steps": 0}), benchmarks)
    distance_m = result.gap.push_off_m
    assert distance_m == pytest.approx(0.23 * 1.84)
    assert result.gap.now.mean_ground_force_bw == pytest.approx(result.gap.now.rise_m / distance_m + 1)
    assert "push-off-estimate" in codes(result)


def test_measured_tip_toe_reach_replaces_the_stand_in(benchmarks):
    measured = estimate_gap(jumper(tip_toe_reach="2.48 m"), benchmarks)
    assert measured.gap.now.rise_m == pytest.approx(0.57)
    assert "heel-rise-estimate" not in codes(measured)
    assert "heel-rise-estimate" in codes(estimate_gap(jumper(), benchmarks))


def test_small_gap_is_said_to_be_inside_the_noise(benchmarks):
    result = estimate_gap(jumper(target={"touch": "3.07 m", "method": "touch"}), benchmarks)
    assert result.gap.inside_noise
    assert "inside the noise" in " ".join(result.gap.story)


def test_target_equal_to_the_present_jump_maintains(benchmarks):
    result = estimate_gap(jumper(target={"touch": "3.05 m", "method": "touch"}), benchmarks)
    assert codes(result) >= {"maintenance"}
    assert not any(finding.level != "note" for finding in result.findings)
    assert result.gap.strength_share is None


def test_target_below_the_present_jump_is_a_warning(benchmarks):
    result = estimate_gap(jumper(target={"touch": "2.95 m", "method": "touch"}), benchmarks)
    assert {finding.code: finding.level for finding in result.findings}["target-below-present"] == "warning"


def test_force_outside_the_curves_is_clamped_and_said(benchmarks):
    quick = {**CONTACT, "trials": ["0.10 s"]}
    result = estimate_gap(jumper([TOUCH, quick]), benchmarks)
    assert "outside-curves" in codes(result)
    assert result.target_x == benchmarks.axis.high


def test_latest_test_of_the_target_counts(benchmarks):
    assert estimate_gap(jumper_with({**TOUCH, "trials": ["3.10 m"]}), benchmarks).jumps.touch_now_m == pytest.approx(
        3.10
    )


@pytest.mark.parametrize("name", DEMOS)
def test_demo_athletes_give_a_gap_without_a_warning(benchmarks, name):
    result = estimate_gap(demo(name), benchmarks)
    assert [finding for finding in result.findings if finding.level != "note"] == []
    assert result.gap.gap.mean_ground_force_N > 0
    # Three centimetres are less than one day of three touches shows.
    assert result.gap.inside_noise == (name == "in-season-player")


def test_demo_adult_opens_the_high_tier_and_is_short_in_the_calf(benchmarks):
    athlete = demo("adult-one-leg-jumper")
    result = estimate_gap(athlete, benchmarks)
    assert result.one_rm_kg["back-squat", "both"].value >= 1.5 * athlete.body_mass
    assert max(result.emphasis.tilts, key=lambda quality: result.emphasis.tilts[quality]) == "calf-ankle"


def metres(low, high):
    return st.floats(low, high).map(lambda value: f"{value:.3f} m")


def seconds(low, high):
    return st.floats(low, high).map(lambda value: f"{value:.3f} s")


def trials(one):
    return st.lists(one, min_size=1, max_size=4)


side = st.sampled_from(["left", "right", None])
take_off = st.sampled_from(["one-leg left", "one-leg right", "two-leg"])
count = st.integers(0, 60)
force = st.none() | st.floats(1, 6000).map(lambda value: f"{value:.1f} N")
movement = st.sampled_from(["back-squat", "rear-foot-split-squat", "loaded-one-leg-calf-raise", "other-lift"])
any_test = st.one_of(
    st.fixed_dictionaries(
        {"kind": st.just("touch"), "take_off": take_off, "run_up": st.booleans(), "trials": trials(metres(1.4, 4.5))}
    ),
    st.fixed_dictionaries({"kind": st.just("flight-time"), "take_off": take_off, "trials": trials(seconds(0.1, 1.2))}),
    st.fixed_dictionaries(
        {
            "kind": st.just("given-rise"),
            "take_off": take_off,
            "run_up": st.booleans(),
            "trials": trials(metres(0.05, 1.6)),
        }
    ),
    st.fixed_dictionaries(
        {"kind": st.just("contact-time"), "take_off": take_off, "trials": trials(seconds(0.08, 1.5))}
    ),
    st.fixed_dictionaries(
        {
            "kind": st.just("lift"),
            "movement": movement,
            "load": st.floats(0, 600).map(lambda value: f"{value:.1f} kg"),
            "reps": st.integers(1, 20),
            "reps_in_reserve": st.integers(0, 10),
            "side": side,
        }
    ),
    st.fixed_dictionaries(
        {
            "kind": st.just("drop-jump"),
            "drop": metres(0.05, 1.2),
            "trials": trials(st.fixed_dictionaries({"contact": seconds(0.08, 1.5), "flight": seconds(0.1, 1.2)})),
        }
    ),
    st.fixed_dictionaries(
        {"kind": st.just("heel-raise"), "form": st.sampled_from(["strict", "free"]), "left": count, "right": count}
    ),
    st.fixed_dictionaries({"kind": st.just("isometric-calf"), "left": force, "right": force}),
    st.fixed_dictionaries(
        {"kind": st.just("flying-sprint"), "distance": metres(0, 400), "trials": trials(seconds(0, 100))}
    ),
)
any_target = st.one_of(
    metres(1.4, 4.5).map(lambda touch: {"touch": touch, "method": "touch"}),
    st.tuples(metres(0.05, 1.6), st.sampled_from(["touch", "flight-time", "given"])).map(
        lambda pair: {"rise": pair[0], "method": pair[1]}
    ),
)
BENCHMARKS = shipped_benchmarks()


@settings(max_examples=200, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow])
@given(
    tests=st.lists(any_test, min_size=1, max_size=6),
    legs=take_off,
    steps=st.integers(0, 9),
    mass=st.floats(25, 250).map(lambda value: f"{value:.1f} kg"),
    target=any_target,
    level=st.sampled_from(["novice", "intermediate", "advanced"]),
)
def test_any_tests_give_finite_figures_or_findings(tests, legs, steps, mass, target, level):
    """No traceback, and no infinite or missing number, because the models refuse those themselves."""
    athlete = jumper(tests, take_off=legs, approach={"steps": steps}, body_mass=mass, target=target, level=level)
    try:
        result = estimate_gap(athlete, BENCHMARKS)
    except UserError as refusal:
        assert any(finding.level == "error" for finding in refusal.findings)
        return
    assert result.gap.now.rise_m > 0
    assert all(0.5 <= factor <= 1.5 for factor in result.emphasis.tilts.values())
    for share in (result.gap.strength_share, result.gap.speed_share):
        assert share is None or 0 <= share <= 1
