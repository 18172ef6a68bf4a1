"""A test drawn at random, of any kind and in any unit, gives findings or finite figures, also on the page."""

import json
import math
from typing import get_args

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from pydantic import ValidationError

from planner.domain.findings import UserError
from planner.domain.measure import TEST_KINDS
from planner.domain.movement_library import Library
from planner.domain.terms import HeightMethod, TakeOff
from planner.estimate.estimate_gap import estimate_gap
from planner.prescription.battery import test_lines
from planner.report.gap_text import gap_json, gap_text
from planner.units import UNITS
from tests.estimate.people import jumper, shipped_benchmarks

METHODS = get_args(HeightMethod)
NO_LIBRARY = Library({}, {}, {})
BY_LEG = ("heel-raise", "isometric-calf", "one-leg-hop", "one-leg-jump")  # no line for a leg that was not tested
BENCHMARKS = shipped_benchmarks()
DRAWS = 15
LEAST_READ = 0.5  # share of each kind's draws that give figures; the others are refused, with findings


def quantity(low, high, dimension):
    """Text of a number in any unit that files may use, or in two (5 ft 11 in), inside the domain's bounds."""
    units = UNITS[dimension]

    def in_one(value, unit):
        return f"{value / units[unit]:.6f} {unit}"

    def in_two(value, pair):
        larger, smaller = sorted(pair, key=lambda unit: -units[unit])
        whole = int(value / units[larger])
        return f"{whole} {larger} {(value - whole * units[larger]) / units[smaller]:.6f} {smaller}"

    one = st.builds(in_one, st.floats(low, high), st.sampled_from(sorted(units)))
    pairs = [(a, b) for a in units for b in units if units[a] > units[b]]
    return st.one_of(one, st.builds(in_two, st.floats(low, high), st.sampled_from(pairs))) if pairs else one


LENGTH, TIME, MASS, FORCE, RATE = "length", "time", "mass", "force", "rate"
flight, contact = quantity(0.1, 1.2, TIME), quantity(0.08, 1.5, TIME)
touch, rise, drop = quantity(1.4, 4.5, LENGTH), quantity(0.05, 1.6, LENGTH), quantity(0.05, 1.2, LENGTH)
distance, short = quantity(0.0, 400.0, LENGTH), quantity(0.0, 1200.0, TIME)
load, force = quantity(0.0, 600.0, MASS), quantity(0.001, 20000.0, FORCE)
frame = st.one_of(st.integers(0, 400), st.integers(0, 100_000_000))
share = st.floats(0, 1)
body_mass = quantity(25.0, 250.0, MASS)
mass_unit, length = st.sampled_from(["kg", "lb"]), st.sampled_from(["cm", "in"])
legs, arms, flag = st.sampled_from(get_args(TakeOff)), st.sampled_from(["hips", "free"]), st.booleans()


def trials(one, most=4):
    return st.lists(one, min_size=1, max_size=most)


def some(required, optional=None):
    return st.fixed_dictionaries(required, optional=optional or {})


FIELDS = {
    "touch": some({"take_off": legs, "run_up": flag, "trials": trials(touch)}),
    "flight-time": some({"take_off": legs, "trials": trials(flight)}),
    "given-rise": some({"take_off": legs, "run_up": flag, "trials": trials(rise)}),
    "contact-time": some({"take_off": legs, "trials": trials(contact)}),
    "lift": some(
        {
            "movement": st.sampled_from(
                ["back-squat", "rear-foot-split-squat", "loaded-one-leg-calf-raise", "one-leg-hip-thrust", "other"]
            ),
            "load": load,
            "reps": st.integers(1, 20),
            "reps_in_reserve": st.integers(0, 10),
        },
        {"side": st.sampled_from(["left", "right"])},
    ),
    "drop-jump": some({"drop": drop, "trials": trials(some({"contact": contact, "flight": flight}))}),
    "heel-raise": some(
        {"form": st.sampled_from(["strict", "free"])}, {"left": st.integers(0, 5000), "right": st.integers(0, 5000)}
    ),
    "isometric-calf": some({}, {"left": force, "right": force}),
    "flying-sprint": some({"distance": distance, "trials": trials(short)}),
    "video-frames": some(
        {
            "take_off": legs,
            "run_up": flag,
            "frame_rate": quantity(1.0, 20000.0, RATE),
            "trials": trials(some({"take_off": frame}, {"touch_down": frame, "landing": frame})),
        },
        {"drop": drop},
    ),
    "contact-mat": some(
        {"take_off": legs, "run_up": flag, "trials": trials(some({"flight": flight}, {"contact": contact}))}
    ),
    "squat-jump": some({"take_off": legs, "arms": arms, "trials": trials(flight)}),
    "countermovement-jump": some({"take_off": legs, "arms": arms, "trials": trials(flight)}),
    "loaded-jump": some(
        {
            "form": st.sampled_from(["squat", "countermovement"]),
            "sets": trials(some({"load": load, "flights": trials(flight)}), 5),
        },
        {"push_off": distance},
    ),
    "sprint-splits": some({"distances": trials(distance), "trials": trials(trials(short))}),
    "isometric-force": some(
        {
            "position": st.sampled_from(["mid-thigh-pull", "squat"]),
            "includes_body_weight": flag,
            "trials": trials(force),
        },
        {"side": st.sampled_from(["left", "right"])},
    ),
    "one-leg-hop": some({}, {"left": trials(distance), "right": trials(distance)}),
    "one-leg-jump": some({"arms": arms}, {"left": trials(flight), "right": trials(flight)}),
    "force-platform": some(
        {
            "jump": st.sampled_from(["countermovement", "squat", "drop"]),
            "take_off": legs,
            "arms": arms,
            "trials": trials(
                some(
                    {"flight": flight},
                    {
                        "rise_by_impulse": rise,
                        "rise_by_impulse_error": distance,
                        "contact": contact,
                        "peak_force": force,
                        "left_share": share,
                    },
                )
            ),
        },
        {"drop": drop},
    ),
}


def test_every_kind_is_drawn():
    assert set(FIELDS) == set(TEST_KINDS)


def _finite(value):
    if isinstance(value, dict):
        return all(map(_finite, value.values()))
    if isinstance(value, (list, tuple)):
        return all(map(_finite, value))
    return not isinstance(value, float) or math.isfinite(value)


def known(take_off, steps):
    """A plain test of the target jump itself, so that the test drawn next to it is read to the end."""
    return {"kind": "touch", "take_off": take_off, "run_up": steps > 0, "trials": ["3.05 m"]}


def drawn_jumper(data, kind):
    """An athlete as in a file: the drawn test, sometimes one of another kind, mostly also one of the target jump."""
    drawn = [{"kind": kind, **data.draw(FIELDS[kind])}]
    other = data.draw(st.one_of(st.none(), st.sampled_from(TEST_KINDS)))
    if other is not None:
        drawn.append({"kind": other, **data.draw(FIELDS[other])})
    alone = data.draw(st.integers(0, 9)) == 9
    method, steps, take_off = data.draw(st.sampled_from(METHODS)), data.draw(st.integers(0, 5)), data.draw(legs)
    if method == "flight-time" and not alone:
        steps = 0  # flight time is refused off a run-up
    target = {"touch": "3.20 m", "method": "touch"} if method == "touch" else {"rise": "60 cm", "method": method}
    who = {"target": target, "approach": {"steps": steps}, "take_off": take_off, "body_mass": data.draw(body_mass)}
    who["print_as"] = {"mass": data.draw(mass_unit), "length": data.draw(length)}
    return drawn if alone else [*drawn, known(take_off, steps)], who


def checked(tests, who):
    """Whether the drawn tests gave figures, all of them finite; a refusal has findings."""
    try:
        athlete = jumper(tests, **who)
    except ValidationError:
        return False  # beyond a bound of the domain, whose message comes from reading files
    try:
        result = estimate_gap(athlete, BENCHMARKS)
    except UserError as refusal:
        assert refusal.findings
        return False
    assert len(test_lines(athlete, NO_LIBRARY)) >= len([test for test in athlete.tests if test.kind not in BY_LEG])
    assert _finite(gap_json(result.gap))
    json.dumps(gap_json(result.gap), allow_nan=False)
    page = gap_text(result, athlete, full=True)
    assert not {"nan", "inf", "-inf", "None"} & set(page.replace("(", " ").split())
    return True


@pytest.mark.parametrize("kind", TEST_KINDS)
def test_any_test_gives_findings_or_finite_figures(kind):
    came = []

    @settings(max_examples=DRAWS, deadline=None, suppress_health_check=list(HealthCheck), derandomize=True)
    @given(data=st.data())
    def every_draw(data):
        came.append(checked(*drawn_jumper(data, kind)))

    every_draw()
    assert sum(came) >= LEAST_READ * len(came), f"{sum(came)} of {len(came)} draws of {kind} came to figures"
