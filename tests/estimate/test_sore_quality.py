"""Which deficits are sure, and that a sore joint has none: the adult demo with a weak calf."""

from __future__ import annotations

import json

import pytest

from planner.problem.from_files import estimate_from
from tests.benchmarks.coach_draws import Drawn
from tests.benchmarks.coach_kept import corners

WEAK = corners()["adult-one-leg-jumper, calf 30 % short"]()
TENDON = [{"joint": "achilles-ankle", "side": "left", "pain": 1}]
KNEE = [{"joint": "patellar-knee", "side": "left", "pain": 1}]


@pytest.mark.parametrize(("joints", "sure"), [([], True), (TENDON, False), (KNEE, True)])
def test_a_deficit_beyond_two_errors_is_sure_unless_its_joint_hurts(joints, sure) -> None:
    one = Drawn({**json.loads(json.dumps(WEAK.athlete)), "joints": joints}, WEAK.template, "")
    result = estimate_from(one.inputs)
    assert ("calf-ankle" in result.emphasis.surely_short) == sure
    calf = result.qualities["calf-ankle"]
    assert calf.deficit > 2 * calf.deficit_se


def test_a_deficit_inside_its_error_is_not_sure() -> None:
    heel_raises = [t for t in WEAK.athlete["tests"] if t.get("movement") != "loaded-one-leg-calf-raise"]
    result = estimate_from(Drawn({**WEAK.athlete, "tests": heel_raises}, WEAK.template, "").inputs)
    assert "calf-ankle" not in result.emphasis.surely_short
