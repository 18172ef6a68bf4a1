"""Any numbers as a record: findings, or figures that are finite."""

import math
from dataclasses import asdict

import numpy as np
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from planner.domain.findings import UserError
from planner.estimate.notebook import Notebook
from planner.force_platform.analyse import analyse
from planner.force_platform.force_record import ForceRecord
from planner.force_platform.jump_case import Options
from planner.report.platform_text import platform_json, platform_text
from tests.force_platform.simulate import SHAPES, simulate

CLEAN = np.array(simulate(SHAPES["one hump"], rate_Hz=500, noise_N=2.0, seed=9).record.force_N)
level = st.sampled_from([0.0, 5.0, 20.0, 300.0, 700.0, 701.0, 1500.0, 4000.0, -50.0, math.nan, 1e5])
pieces = st.lists(st.tuples(level, st.integers(1, 400), st.floats(0, 30)), min_size=1, max_size=9)
kinds = st.sampled_from(["auto", "countermovement", "squat", "drop"])
mass = st.one_of(st.none(), st.floats(25, 250))


def ends_well(record, rule, options):
    try:
        jumps = analyse(record, rule, options, Notebook())
    except UserError as refusal:
        assert refusal.findings
        return
    for jump in jumps:
        assert finite(asdict(jump))
        assert finite(platform_json(jump, "drawn"))
        assert "nan" not in platform_text(jump, "drawn")


def finite(value):
    if isinstance(value, dict):
        return all(map(finite, value.values()))
    if isinstance(value, (list, tuple)):
        return all(map(finite, value))
    return not isinstance(value, float) or math.isfinite(value)


@settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))
@given(pieces, st.sampled_from([100.0, 300.0, 1000.0]), kinds, mass, st.integers(0, 99))
def test_pieces_of_constant_force(rule, drawn, rate_Hz, kind, mass_kg, seed):
    random = np.random.default_rng(seed)
    force = np.concatenate([np.full(count, value) + random.normal(0, noise, count) for value, count, noise in drawn])
    ends_well(ForceRecord("drawn", rate_Hz, force.tolist()), rule, Options(kind, None, True, mass_kg))


@settings(max_examples=100, deadline=None, suppress_health_check=list(HealthCheck))
@given(
    st.integers(0, len(CLEAN)),
    st.integers(0, len(CLEAN)),
    st.lists(st.tuples(st.integers(0, len(CLEAN) - 1), st.floats(-1e5, 1e5)), max_size=6),
    kinds,
    mass,
)
def test_a_jump_cut_and_spoilt(rule, start, end, spoilt, kind, mass_kg):
    force = CLEAN.copy()
    for place, value in spoilt:
        force[place : place + 3] = value
    part = force[min(start, end) : max(start, end)]
    half = (part / 2).tolist()
    record = ForceRecord("drawn", 500.0, part.tolist(), (("left", half), ("right", half)))
    ends_well(record, rule, Options(kind, None, True, mass_kg))
