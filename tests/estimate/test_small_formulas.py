"""Small formulas and sentences of the estimate on both sides of their edges, worked by hand."""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import Any

import pytest

from planner.domain.gap_record import OutlookLine
from planner.domain.measure import VideoFramesTest
from planner.estimate.dropped import dropped_words
from planner.estimate.emphasis import strong_and_sure, tilt, tilt_se
from planner.estimate.estimate_gap import estimate_gap
from planner.estimate.notebook import Notebook
from planner.estimate.outlook import outlook_of, outlook_words
from planner.estimate.target_notes import note_target
from planner.estimate.touch_down import Fall, touch_down_line, with_fall
from planner.estimate.uncertainty import Estimate, confidence, inside_noise
from planner.estimate.useful_tests import _load_hint
from planner.estimate.video import contacts_s, drops_s, flights_s
from planner.estimate.words import Words
from planner.units import STANDARD_GRAVITY_m_s2 as g
from tests.estimate.people import jumper, jumper_with

RULE = SimpleNamespace(gains=[SimpleNamespace(percent=percent) for percent in (4.0, 8.0)], most_blocks=6)


@pytest.mark.parametrize(
    ("wanted_m", "blocks", "says"),
    [
        (-0.1, (None, None), "asks for none"),
        (0.0, (None, None), "asks for none"),
        (0.02, (1, 1), "One block may close it"),
        (0.04, (1, 2), "One block may close it"),
        (0.041, (2, 3), "This block does not close it"),
        (0.24, (6, 12), "This block does not close it"),
        (0.241, (None, None), "more than 6 blocks; set a nearer mark first"),
    ],
)
def test_blocks_are_counted_at_the_highest_and_the_lowest_gain(
    wanted_m: float, blocks: tuple[int | None, int | None], says: str
) -> None:
    """Of half a metre: 2 cm to 4 cm a block, six blocks at most."""
    found = outlook_of(rise_now_m=0.5, gain_wanted_m=wanted_m, rule=RULE)  # type: ignore[arg-type]
    assert (found.low_m, found.high_m) == (pytest.approx(0.02), pytest.approx(0.04))
    assert (found.blocks_low, found.blocks_high) == blocks
    assert says in outlook_words(found, wanted_m, RULE, Words())  # type: ignore[arg-type]


COUNTS: list[tuple[tuple[int, int | None], str]] = [
    ((1, 1), "about 1 block at"),
    ((2, 2), "about 2 blocks at"),
    ((2, 3), "about 2 to 3 blocks at"),
    ((2, 12), "about 2 to 12 blocks"),
    ((2, 13), "2 blocks or many more"),
    ((2, None), "2 blocks or many more"),
]


@pytest.mark.parametrize(("blocks", "says"), COUNTS)
def test_the_count_of_blocks_in_words(blocks: tuple[int, int | None], says: str) -> None:
    outlook = OutlookLine(low_m=0.02, high_m=0.04, blocks_low=blocks[0], blocks_high=blocks[1])
    said = outlook_words(outlook, 0.1, RULE, Words())  # type: ignore[arg-type]
    assert says in said and "2 to 4 cm" in said and "does not close it" in said


def test_a_fall_s_range_errs_from_nought_and_a_measured_one_by_its_own_error(benchmarks: Any) -> None:
    """0.3 to 0.7 m/s: the root mean square of a speed anywhere in it is sqrt(0.5^2 + 0.4^2 / 12)."""
    inputs = estimate_gap(jumper(), benchmarks).inputs
    assert with_fall(inputs, None) == inputs
    assert with_fall(inputs, Fall(0.3, 0.7)).touch_down_se_m_s == pytest.approx(math.sqrt(0.25 + 0.16 / 12))
    measured = with_fall(inputs, Fall(0.4, 0.4, 0.05))
    assert (measured.touch_down_speed_m_s, measured.touch_down_se_m_s) == (-0.4, 0.05)
    assert touch_down_line(inputs, None) is None
    line = touch_down_line(inputs, Fall(0.3, 0.7))
    assert line is not None and inputs.contact_time_s is not None
    per_tenth_N = 0.1 * inputs.body_mass_kg.value / inputs.contact_time_s.value
    assert line.gap_per_tenth_N == pytest.approx(per_tenth_N)
    assert line.now_low_N - line.now_at_least_N == pytest.approx(3 * per_tenth_N)
    assert line.now_high_N - line.now_at_least_N == pytest.approx(7 * per_tenth_N)
    assert line.target_low_N - line.target_at_least_N == pytest.approx(3 * per_tenth_N)
    assert line.target_high_N - line.target_at_least_N == pytest.approx(7 * per_tenth_N)
    assert not line.measured


def _filmed(rate: float, *trials: tuple[int | None, int, int | None]) -> VideoFramesTest:
    """Touch-down, take-off and landing of each trial, in frames."""
    lines = [dict(zip(("touch_down", "take_off", "landing"), trial, strict=True)) for trial in trials]
    lines = [{name: frame for name, frame in line.items() if frame is not None} for line in lines]
    test = {
        "kind": "video-frames",
        "take_off": "one-leg left",
        "run_up": True,
        "frame_rate": f"{rate} /s",
        "trials": lines,
    }
    [found] = [one for one in jumper_with(test).tests if isinstance(one, VideoFramesTest)]
    return found


def test_frames_become_seconds_and_impossible_ones_are_left_out(benchmarks: Any) -> None:
    kind, notes = benchmarks.test_kinds["video-frames"], Notebook()
    filmed = _filmed(240, (100, 148, 268), (None, 0, 120), (10, 58, None), (100, 700, 701))
    assert flights_s(0, filmed, notes) == [0.5, 0.5]
    assert contacts_s(0, filmed, kind, notes) == [0.2, 0.2]
    assert drops_s(0, filmed, kind, notes) == [(0.2, 0.5)]
    assert {finding.code for finding in notes.findings} == {"video-flight", "video-contact"}


@pytest.mark.parametrize(
    ("rate", "code", "told"),
    [(239, "video-slow", 1), (240, None, 1), (120, "video-slow", 1), (119, "video-too-slow", 0)],
)
def test_a_camera_is_refused_under_one_rate_and_warned_of_under_another(
    benchmarks: Any, rate: float, code: str | None, told: int
) -> None:
    notes = Notebook()
    found = contacts_s(
        0, _filmed(rate, (100, 100 + round(rate / 5), None)), benchmarks.test_kinds["video-frames"], notes
    )
    assert len(found) == told
    assert [finding.code for finding in notes.findings] == ([code] if code else [])


@pytest.mark.parametrize(
    ("gain_m", "code"),
    [
        (0.0, "maintenance"),
        (-0.005, "maintenance"),
        (0.005, "maintenance"),
        (0.006, None),
        (-0.006, "target-below-present"),
    ],
)
def test_a_target_within_half_a_step_of_the_test_maintains(gain_m: float, code: str | None) -> None:
    notes = Notebook()
    note_target(SimpleNamespace(gain_wanted_m=gain_m, resolution_m=0.01), Words(), notes)  # type: ignore[arg-type]
    assert [finding.code for finding in notes.findings] == ([code] if code else [])


def test_the_load_to_start_from_meets_the_need(benchmarks: Any) -> None:
    """A leg share of 0.5 and a need of 600 N on 74 kg: 600 / (0.5 g) - 74 kg; with half of it as share of body mass."""
    who = jumper(body_mass="74 kg")
    lift = SimpleNamespace(leg_share=0.5, body_mass_share=0.0)
    test = SimpleNamespace(lift=lift, need_in="body-weights")
    one_rm = 600 / (0.5 * g) - 74
    said = _load_hint(SimpleNamespace(first_test=test, first_need=600.0), who, 5)  # type: ignore[arg-type]
    [kg] = [int(word) for word in said.split() if word.isdigit() and int(word) != 5]
    assert 0.84 * one_rm < kg < 0.90 * one_rm  # five repetitions to failure
    lone = SimpleNamespace(lift=lift, need_in="body-masses")
    said = _load_hint(SimpleNamespace(first_test=lone, first_need=1.5), who, 1)  # type: ignore[arg-type]
    assert f"about {1.5 * 74:.0f} kg × 1" in said
    light = _load_hint(SimpleNamespace(first_test=test, first_need=10.0), who, 5)  # type: ignore[arg-type]
    assert "body weight × 5" in light
    none = SimpleNamespace(first_test=SimpleNamespace(lift=None), first_need=1.0)
    assert _load_hint(none, who, 5) == ""  # type: ignore[arg-type]


def test_what_is_not_believed_is_named_with_what_it_would_have_told(benchmarks: Any) -> None:
    video = {
        "kind": "video-frames",
        "take_off": "one-leg left",
        "run_up": True,
        "frame_rate": "60 /s",
        "trials": [{"touch_down": 0, "take_off": 9}],
    }
    tests = [
        {"kind": "lift", "movement": "back-squat", "load": "60 kg", "reps": 5},
        {"kind": "sprint-splits", "distances": ["10 m", "20 m"], "trials": [["1.8 s", "3.0 s"]]},
        {"kind": "lift", "movement": "bench-press", "load": "60 kg", "reps": 5},
        video,
        {**video, "drop": "30 cm"},
        {"kind": "force-platform", "jump": "drop", "trials": [{"flight": "0.5 s", "contact": "0.2 s"}]},
    ]
    who = jumper(tests)
    assert dropped_words(who, benchmarks, []) == ""
    said = dropped_words(who, benchmarks, [5, 0, 1, 2, 3, 4])
    named = said.split(": ")[1].removesuffix(".").split(", ")
    assert named == [
        "back squat (maximal strength)",
        "sprint splits (fast force and speed)",
        "bench press (no quality)",
        "video frames (contact or flight of a jump)",
        "video frames (fast force and speed)",
        "force platform (fast force and speed)",
    ]


def test_tilts_on_both_sides_of_dead_zone_and_clamps(benchmarks: Any) -> None:
    rule = benchmarks.emphasis
    edge = rule.dead_zone
    assert tilt("calf-ankle", deficit=edge, confidence=1.0, rule=rule) == pytest.approx(1 + rule.gain * edge)
    assert tilt("calf-ankle", deficit=edge - 1e-9, confidence=1.0, rule=rule) == 1.0
    assert tilt("calf-ankle", deficit=-edge, confidence=1.0, rule=rule) == pytest.approx(1 - rule.gain * edge)
    plain = rule.model_copy(update={"sure": None})
    spread = tilt_se("calf-ankle", deficit=0.1, deficit_se=0.02, confidence=0.5, rule=plain)
    assert spread == pytest.approx(rule.gain * 0.5 * 0.02)
    limit = rule.strong_and_sure
    assert not strong_and_sure(deficit=2 * limit, confidence=0.5, rule=rule)
    assert strong_and_sure(deficit=2 * limit - 1e-9, confidence=0.5, rule=rule)


def test_errors_confidence_and_noise() -> None:
    assert str(Estimate(12.3456, 0.456)) == "12.35 ± 0.46"
    assert confidence(relative_se=0.1, scatter=0.1) == pytest.approx(0.5)
    assert confidence(relative_se=0.1, scatter=0.2) == pytest.approx(0.8)
    assert not inside_noise(Estimate(-2.0, 1.0), noise_multiple=2.0) and inside_noise(
        Estimate(-1.99, 1.0), noise_multiple=2.0
    )


def test_lengths_in_the_coach_s_units() -> None:
    metric, imperial = Words(), Words("in", "lb")
    assert (metric.length(0.105), metric.length(0.105, 0)) == ("10.5 cm", "10 cm")
    assert (imperial.length(0.104), imperial.length(0.104, 0)) == ("4.1 in", "4.1 in")
    assert (metric.mark(3.115), imperial.mark(3.115)) == ("3.115 m", "122.6 in")
    assert (metric.load(122.5), imperial.load(122.5, 0)) == ("122.5 kg", "270 lb")
