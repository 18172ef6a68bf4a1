"""Second opinions by hand: which test each one speaks of, and its figure."""

from __future__ import annotations

import datetime
from typing import Any

import pytest

from planner.estimate.estimate_gap import estimate_gap
from planner.units import STANDARD_GRAVITY_m_s2 as g
from tests.estimate.people import jumper_with

EARLY, LATE = datetime.date(2025, 2, 1), datetime.date(2025, 2, 20)
MASS_kg = 74
DROP = {"kind": "drop-jump", "drop": "30 cm"}
MAT = {"kind": "contact-mat", "take_off": "two-leg"}
PULL = {"kind": "isometric-force", "position": "mid-thigh-pull"}
CMJ = {"kind": "countermovement-jump"}


def opinions(benchmarks: Any, *tests: dict[str, Any]) -> dict[str, Any]:
    return {one.name: one for one in estimate_gap(jumper_with(*tests), benchmarks).gap.second_opinions}


def figure(found: dict[str, Any], *words: str) -> float:
    [one] = [one for name, one in found.items() if all(word in name for word in words)]
    return one.value  # type: ignore[no-any-return]


def test_reactive_strength_is_that_of_the_latest_drop_jump_and_the_latest_rebounds(benchmarks: Any) -> None:
    late = {**DROP, "date": LATE, "trials": [{"contact": "0.20 s", "flight": "0.50 s"}]}
    early = {**DROP, "date": EARLY, "drop": "45 cm", "trials": [{"contact": "0.25 s", "flight": "0.40 s"}]}
    rebounds = [
        {**MAT, "date": date, "trials": [{"contact": "0.25 s", "flight": flight}]}
        for date, flight in ((LATE, "0.45 s"), (EARLY, "0.40 s"))
    ]
    plain = {**MAT, "date": datetime.date(2025, 3, 1), "trials": [{"flight": "0.5 s"}]}
    found = opinions(benchmarks, late, early, *rebounds, plain)
    assert figure(found, "flight over contact", "30 cm box") == pytest.approx(0.50 / 0.20)
    assert figure(found, "height over contact", "30 cm box") == pytest.approx(g * 0.50**2 / 8 / 0.20)
    assert figure(found, "flight over contact", "rebounds") == pytest.approx(0.45 / 0.25)
    assert not any("45 cm" in name for name in found)


def test_of_two_drop_jumps_of_one_day_the_later_line_speaks(benchmarks: Any) -> None:
    trials = {"trials": [{"contact": "0.20 s", "flight": "0.50 s"}]}
    found = opinions(benchmarks, {**DROP, **trials}, {**DROP, **trials, "drop": "40 cm"})
    assert any("40 cm" in name for name in found) and not any("30 cm" in name for name in found)


def test_isometric_peaks_have_body_weight_in_them(benchmarks: Any) -> None:
    without = {**PULL, "trials": ["2000 N"], "includes_body_weight": False, "date": LATE}
    with_it = {**PULL, "trials": ["2600 N"], "includes_body_weight": True, "date": EARLY}
    squat = {**PULL, "position": "squat", "side": "left", "trials": ["1500 N"], "includes_body_weight": True}
    found = opinions(benchmarks, without, with_it, squat)
    weight_N = MASS_kg * g
    assert figure(found, "mid thigh pull") == pytest.approx(2000 + weight_N)
    assert figure(found, "squat, left leg") == 1500
    [pull] = [one for name, one in found.items() if "mid thigh pull" in name]
    assert f"{2000 / weight_N + 1:.2f} body weights" in pull.says


def test_peak_power_of_the_latest_jump_from_a_stand_off_both_legs(benchmarks: Any) -> None:
    """Sayers: 60.7 h + 45.3 m - 2055; Harman: 61.9 h + 36 m - 1822."""
    early, late = ({**CMJ, "date": date, "trials": [flight]} for date, flight in ((EARLY, "0.40 s"), (LATE, "0.50 s")))
    squat = {"kind": "squat-jump", "date": datetime.date(2025, 3, 1), "trials": ["0.60 s"]}
    found = opinions(benchmarks, late, early, squat)
    rise_cm = 100 * g * 0.50**2 / 8
    watts = 60.7 * rise_cm + 45.3 * MASS_kg - 2055
    assert figure(found, "peak power", "countermovement jump") == pytest.approx(watts)
    [power] = [one for name, one in found.items() if "peak power" in name]
    assert f"{watts / MASS_kg:.0f} W/kg" in power.says
    assert f"{61.9 * rise_cm + 36 * MASS_kg - 1822:,.0f} W" in power.says


def test_the_stretch_counts_for_jumps_alike(benchmarks: Any) -> None:
    squat = {"kind": "squat-jump", "trials": ["0.50 s"]}
    found = opinions(benchmarks, squat, {**CMJ, "trials": ["0.55 s"]})
    assert figure(found, "countermovement over squat jump") == pytest.approx((0.55 / 0.50) ** 2)
    free = opinions(benchmarks, squat, {**CMJ, "arms": "free", "trials": ["0.55 s"]})
    assert not any("over squat jump" in name for name in free)


def test_free_heel_raises_without_a_factor_of_the_file_count_in_full(benchmarks: Any) -> None:
    free = {"kind": "heel-raise", "form": "free", "protocol": "own", "left": 40, "right": 30}
    result = estimate_gap(jumper_with(free), benchmarks)
    tests = [one for one in benchmarks.qualities["calf-ankle"].tests if one.kind == "heel-raise"]
    [counted] = result.qualities["calf-ankle"].counted
    assert counted.reading.have == pytest.approx(40 * tests[0].free_form_factor)
    assert "counted as" in counted.reading.label
