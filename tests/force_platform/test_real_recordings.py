"""Two real countermovement jumps, read as their source describes them.

Source: M. Duarte, R. N. Watanabe, Biomechanics and Motor Control (open course, repository BMClab/BMC, folder data/,
commit fa66686), licence CC BY 4.0. Vertical force only; the source states no body mass and no independent height. The
recordings are not part of this project; see conftest.py for where they are looked for.
"""

import pytest

from planner.domain.findings import UserError
from planner.estimate.findings import Notebook
from planner.estimate.platform.analyse import analyse
from planner.estimate.platform.case import Options
from planner.files.records import RecordOptions, read_record

one_sample_s = 1 / 600
course_g = 9.8


def analysed(recordings, name, rule, options=None, **analysis):
    record = read_record((recordings / name).read_bytes(), name, options)
    notes = Notebook()
    (jump,) = analyse(record, rule, Options(**analysis), notes)
    return jump, {finding.code: finding for finding in notes.findings}


def course(recordings, rule, **analysis):
    return analysed(recordings, "GRFZjump.txt", rule, RecordOptions(rate_Hz=600), **analysis)


def test_column_without_a_rate_is_refused(recordings):
    with pytest.raises(UserError, match="no stated rate"):
        read_record((recordings / "GRFZjump.txt").read_bytes(), "GRFZjump.txt")


def test_course_figures_within_one_sample(recordings, rule):
    """The course's rules: least force set to 0, threshold 10 N, g 9.8; its take-off 0.906667 s, landing 1.323333 s and
    height 0.212674 m. Its 10 N over the least reading lie inside the noise of the flight (4 SD are 22 N); ours is the
    time of zero force: two samples at take-off, four at landing, and what those are of height."""
    jump, _ = course(recordings, rule, g=course_g)
    assert jump.take_off_s == pytest.approx(0.906667, abs=2 * one_sample_s)
    assert jump.landing_s == pytest.approx(1.323333, abs=4 * one_sample_s)
    per_second = course_g * 0.42 / 4
    tolerance_m = per_second * 4 * one_sample_s
    assert jump.rise_by_flight_m.value == pytest.approx(0.212674, abs=tolerance_m)


def test_impulse_says_about_two_centimetres_more(recordings, rule):
    jump, _ = course(recordings, rule)
    assert -jump.difference_m.value == pytest.approx(0.02, abs=0.006)


def test_short_weighing_offset_and_noise_are_named(recordings, rule):
    jump, findings = course(recordings, rule)
    assert findings["weighing-short"].level == "warning"
    assert f"only {jump.weighing.seconds:.2f} s" in findings["weighing-short"].message
    assert jump.weighing.seconds == pytest.approx(0.17, abs=0.02)
    assert jump.offset_N == pytest.approx(6.0, abs=1.0)
    assert jump.rise_by_impulse_m.se > 0.005  # the short weighing is in the error


def test_columns_unit_and_rate_are_found(recordings):
    record = read_record((recordings / "jump1.txt").read_bytes(), "jump1.txt")
    assert record.rate_Hz == 450
    assert record.duration_s == pytest.approx(10)
    assert record.remarks == ("force: GRF",)


def test_second_recording_shows_both_heights_and_what_they_hang_on(recordings, rule):
    jump, findings = analysed(recordings, "jump1.txt", rule)
    assert jump.body_weight_N.value == pytest.approx(692, abs=1.5)
    assert jump.rise_by_flight_m.value == pytest.approx(0.37, abs=0.005)
    assert 0.345 < jump.rise_by_impulse_m.value < 0.365
    by_window = next(one for one in jump.depends if "where body weight" in one.what)
    assert len(by_window.choices) >= 2
    assert max(by_window.heights_m) - min(by_window.heights_m) > 0.002
    assert "30 N were set to 0" in findings["zeroed"].message
    assert "rate-low" in findings
