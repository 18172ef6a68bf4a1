"""Other ratios and profiles that coaches use, shown with their cautions; none of them changes the block."""

from __future__ import annotations

from collections.abc import Sequence

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import Benchmarks
from planner.domain.gap_record import SecondOpinion
from planner.domain.measure import ContactMatTest, ForcePlatformTest, IsometricForceTest, LoadedJumpTest
from planner.domain.test_kinds import RatioRule
from planner.estimate.drop_jumps import drop_tests
from planner.estimate.force_velocity import load_point, profile_of
from planner.estimate.heights import METHOD_NAMES, Height
from planner.estimate.notebook import Notebook
from planner.estimate.power import harman_peak_power_W, sayers_peak_power_W
from planner.estimate.take_off import reactive_index_height_m_s, rise_from_flight_time_m
from planner.estimate.trials import middle
from planner.estimate.words import words_of
from planner.units import STANDARD_GRAVITY_m_s2


def second_opinions(
    athlete: Athlete, benchmarks: Benchmarks, heights: Sequence[Height], notes: Notebook
) -> list[SecondOpinion]:
    """Every second opinion that the tests allow, in a fixed order."""
    found = [
        *_reactive_strength(athlete, benchmarks),
        *_isometric(athlete),
        _dynamic_strength(athlete, benchmarks),
        _stretch_shortening(benchmarks, heights),
        _profile(athlete, benchmarks, notes),
        _peak_power(athlete, heights),
    ]
    return [one for one in found if one is not None]


def reading_of(value: float, rule: RatioRule) -> str:
    """The words for the band that a ratio falls in."""
    return next((step.says for step in rule.steps if step.below is None or value < step.below), rule.steps[-1].says)


def _ratio(name: str, value: float, rule: RatioRule) -> SecondOpinion:
    says = reading_of(value, rule)
    return SecondOpinion(name=name, value=value, unit="", says=says, caution=rule.caution, source=rule.source)


def _reactive_strength(athlete: Athlete, benchmarks: Benchmarks) -> list[SecondOpinion]:
    """Both definitions, named, for the latest drop jump and the latest rebounds on a mat."""
    tests = drop_tests(athlete, benchmarks.test_kinds["video-frames"], Notebook())
    found: list[SecondOpinion] = []
    if tests:
        latest = max(tests, key=lambda one: (one.date, one.number))
        found += _indices(f"from a {words_of(athlete).box(latest.drop_m)} box", latest.trials)
    rebounds = [
        tuple((trial.contact, trial.flight) for trial in test.trials if trial.contact is not None and trial.flight)
        for test in sorted(athlete.tests, key=lambda one: one.date)
        if isinstance(test, ContactMatTest) and not test.run_up
    ]
    rebounds = [trials for trials in rebounds if trials]
    return found + (_indices("of rebounds on a mat", rebounds[-1]) if rebounds else [])


def _indices(of: str, trials: Sequence[tuple[float, float]]) -> list[SecondOpinion]:
    """All trials, by either definition."""
    trials_by = [
        (reactive_index_height_m_s(contact_time_s=contact, flight_time_s=flight), flight / contact)
        for contact, flight in trials
    ]
    by_height, by_flight = (middle(column) for column in zip(*trials_by, strict=True))
    caution = "two definitions under one name: never compare one with the other (Healy et al. 2017, IJSPP)"
    named = (("height over contact", by_height, "m/s"), ("flight over contact", by_flight, ""))
    return [
        SecondOpinion(
            name=f"reactive strength index, {name}, {of}",
            value=value,
            unit=unit,
            says="compare with your own earlier ones",
            caution=caution,
            source="Healy et al. 2017, IJSPP",
        )
        for name, value, unit in named
    ]


def _isometric(athlete: Athlete) -> list[SecondOpinion]:
    """Peak force of the latest pull and push against a fixed bar, with body weight, in newtons and body weights."""
    weight_N = athlete.body_mass * STANDARD_GRAVITY_m_s2
    latest = {}
    for test in sorted(athlete.tests, key=lambda one: one.date):
        if isinstance(test, IsometricForceTest):
            latest[test.position, test.side] = test
    found = []
    for (position, side), test in latest.items():
        on = f", {side} leg" if side else ""
        peak_N = middle(test.trials) + (0.0 if test.includes_body_weight else weight_N)
        found.append(
            SecondOpinion(
                name=f"isometric {position.replace('-', ' ')}{on}: peak force, body weight in",
                value=peak_N,
                unit="N",
                says=f"{peak_N / weight_N:.2f} body weights; compare with your own earlier ones",
                caution="a joint angle or a rig of another sort gives another force",
                source="common practice, no source",
            )
        )
    return found


def _dynamic_strength(athlete: Athlete, benchmarks: Benchmarks) -> SecondOpinion | None:
    """Peak force of the jump over that of the pull, both with body weight in."""
    jumps = [test for test in athlete.tests if isinstance(test, ForcePlatformTest) and test.jump == "countermovement"]
    latest = sorted(jumps, key=lambda test: test.date)[-1:]
    peaks = [trial.peak_force for test in latest for trial in test.trials if trial.peak_force is not None]
    pulls = [
        test
        for test in athlete.tests
        if isinstance(test, IsometricForceTest) and test.position == "mid-thigh-pull" and test.side is None
    ]
    if not peaks or not pulls:
        return None
    pull = max(pulls, key=lambda test: test.date)
    weight = 0.0 if pull.includes_body_weight else athlete.body_mass * STANDARD_GRAVITY_m_s2
    index = middle(peaks) / (middle(pull.trials) + weight)
    name = "dynamic strength index: jump's peak force over isometric pull's, body weight in both"
    return _ratio(name, index, benchmarks.second_opinions.dynamic_strength)


def _stretch_shortening(benchmarks: Benchmarks, heights: Sequence[Height]) -> SecondOpinion | None:
    """Countermovement over squat jump, both off two legs, with the same arms and the same method."""
    squats = [one for one in heights if one.form == "squat" and one.take_off == "two-leg"]
    pairs = [
        (squat, jump)
        for squat in squats
        for jump in heights
        if jump.form == "stand" and (jump.take_off, jump.arms, jump.method) == ("two-leg", squat.arms, squat.method)
    ]
    if not pairs:
        return None
    squat, jump = max(pairs, key=lambda pair: (pair[0].date, pair[1].date, pair[0].number, pair[1].number))
    if squat.rise_m.value <= 0:
        return None
    ratio = jump.rise_m.value / squat.rise_m.value
    name = f"countermovement over squat jump, by {METHOD_NAMES[jump.method]}"
    return _ratio(name, ratio, benchmarks.second_opinions.stretch_shortening)


def _profile(athlete: Athlete, benchmarks: Benchmarks, notes: Notebook) -> SecondOpinion | None:
    tests = [(number, test) for number, test in enumerate(athlete.tests) if isinstance(test, LoadedJumpTest)]
    if not tests:
        return None
    number, test = max(tests, key=lambda entry: (entry[1].date, entry[0]))
    rule = benchmarks.second_opinions.profile
    push_off_m = test.push_off or benchmarks.take_offs["two-leg"].push_off.share_of_stature * athlete.stature
    points = [
        load_point(
            load_kg=one.load,
            rise_m=rise_from_flight_time_m(flight_time_s=middle(one.flights)),
            body_mass_kg=athlete.body_mass,
            push_off_m=push_off_m,
        )
        for one in test.sets
    ]
    speeds = [point.speed_m_s for point in points]
    loads = len({one.load for one in test.sets})
    profile = profile_of(points, push_off_m=push_off_m) if loads >= rule.least_loads else None
    if profile is None or max(speeds) - min(speeds) < rule.least_spread_m_s:
        message = (
            f"no force-velocity profile from {loads} loads with mean speeds {min(speeds):.2f} to {max(speeds):.2f} "
            f"m/s: it takes {rule.least_loads} loads, {rule.least_spread_m_s:g} m/s apart, and a line that falls"
        )
        notes.add("warning", "no-profile", message, hint="add heavier jumps", at=("tests", number))
        return None
    estimated = "" if test.push_off else ", an estimate"
    name = (
        f"force-velocity imbalance: F0 {profile.f0_N_kg:.1f} N/kg, v0 {profile.v0_m_s:.2f} m/s, "
        f"highest mean power {profile.power_W_kg:.1f} W/kg, push-off "
        f"{words_of(athlete).length(push_off_m, 0)}{estimated}; slope over best slope"
    )
    return _ratio(name, profile.imbalance, rule.imbalance)


def _peak_power(athlete: Athlete, heights: Sequence[Height]) -> SecondOpinion | None:
    jumps = [one for one in heights if one.form == "stand" and one.take_off == "two-leg" and one.method != "touch"]
    if not jumps:
        return None
    latest = max(jumps, key=lambda one: (one.date, one.number))
    rise_cm, mass_kg = 100 * latest.rise_m.value, athlete.body_mass
    power = max(sayers_peak_power_W(rise_cm=rise_cm, body_mass_kg=mass_kg), 0.0)
    other = max(harman_peak_power_W(rise_cm=rise_cm, body_mass_kg=mass_kg), 0.0)
    return SecondOpinion(
        name=f"peak power from the height of the {latest.kind.replace('-', ' ')}",
        value=power,
        unit="W",
        says=f"{power / mass_kg:.0f} W/kg; another such equation: {other:,.0f} W (Harman et al. 1991)",
        caution="a regression of a group: good for comparing groups, not for one athlete's training",
        source="Sayers et al. 1999, MSSE 31:572",
    )
