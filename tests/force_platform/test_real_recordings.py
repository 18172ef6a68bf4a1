"""Real jumps, read as their sources describe them.

Source: M. Duarte, R. N. Watanabe, Biomechanics and Motor Control (open course, repository BMClab/BMC, folder data/,
commit fa66686), licence CC BY 4.0. Vertical force only; the source states no body mass and no independent height. The
recordings are not part of this project; see conftest.py for where they are looked for.

Slow squat jumps: three in each record, one platform under each foot; from a public repository of squat jumps after knee
surgery (andrewlba/ACL_squat_jump, commit 6b52571), MIT licence. The figures they are held against come with them: body
weight from the quietest 0.6 s of the whole record, flight by crossing 20 N.
"""

from dataclasses import dataclass

import numpy as np
import pytest

from planner.domain.findings import UserError
from planner.estimate.notebook import Notebook
from planner.force_platform.analyse import analyse
from planner.force_platform.force_record import ForceRecord
from planner.force_platform.jump_case import Options
from planner.force_platform.reading.record_file import RecordOptions, read_record
from planner.units import STANDARD_GRAVITY_m_s2

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


def test_course_figures_by_the_course_rules(recordings):
    """Its rules, on the record as we read it: least force set to 0, in the air under 10 N, g 9.8. Take-off is the first
    such sample, landing the last."""
    record = read_record((recordings / "GRFZjump.txt").read_bytes(), "GRFZjump.txt", RecordOptions(rate_Hz=600))
    force = np.array(record.force_N)
    under = np.flatnonzero(force - force.min() < 10.0)
    flight_s = (under[-1] - under[0]) * one_sample_s
    assert under[0] * one_sample_s == pytest.approx(0.906667, abs=1e-6)
    assert under[-1] * one_sample_s == pytest.approx(1.323333, abs=1e-6)
    assert course_g * flight_s**2 / 8 == pytest.approx(0.212674, abs=1e-6)


def test_our_flight_is_longer_by_what_the_course_threshold_cuts_off(recordings, rule):
    """Ten newtons over the least reading lie under the zero line (+3 N as read, the zero line is at +6 N): the course's
    landing is a sample whose noise is low, the last before three of 5 to 14 N that are noise as well (SD 5 N), and the
    foot comes down after them. So ours is the longer flight, by the time from there to the first loaded sample."""
    jump, _ = course(recordings, rule)
    record = read_record((recordings / "GRFZjump.txt").read_bytes(), "GRFZjump.txt", RecordOptions(rate_Hz=600))
    force = np.array(record.force_N) - jump.offset_N
    course_landing = round(1.323333 * 600)
    between = force[course_landing + 1 : course_landing + 4]
    assert np.all(np.abs(between) < 2 * jump.noise_N)  # no contact that could be told from noise
    assert force[course_landing + 4] > 20 * jump.noise_N
    assert jump.take_off_s == pytest.approx(0.906667, abs=one_sample_s)
    assert (course_landing + 3) * one_sample_s - 2 * jump.flight_s.se <= jump.landing_s
    assert jump.landing_s <= (course_landing + 4) * one_sample_s
    longer_s = jump.flight_s.value - (1.323333 - 0.906667)
    per_second = course_g * jump.flight_s.value / 4
    rise_m = jump.rise_by_flight_m.value * course_g / STANDARD_GRAVITY_m_s2
    assert rise_m - 0.212674 == pytest.approx(per_second * longer_s, rel=0.02)


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
    assert record.remarks == ("time: Time", "force: GRF")


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


@dataclass(frozen=True)
class SlowSquats:
    name: str
    body_weight_N: float
    flights_s: tuple[float, ...]


SLOW_SQUATS = [
    SlowSquats("slow_squat_jumps_003.csv", 785, (0.290, 0.309, 0.304)),
    SlowSquats("slow_squat_jumps_010.csv", 581, (0.311, 0.317, 0.327)),
]
weight_within = 0.01
written_within_m = 0.04
most_of_its_error = 1.5  # root mean square of four starts or more, some of one jump only


def slow_squats(recordings, known, rule):
    path = recordings / known.name
    if not path.is_file():
        pytest.skip(f"{known.name} is not here")
    record = read_record(path.read_bytes(), known.name)
    return record, analyse(record, rule, Options(take_all=True), Notebook())


@pytest.mark.parametrize("known", SLOW_SQUATS, ids=lambda known: known.name)
def test_slow_squats_weigh_one_body_and_their_heights_agree(known, recordings, rule):
    _, jumps = slow_squats(recordings, known, rule)
    assert len(jumps) == len(known.flights_s)
    assert len({jump.body_weight_N.value for jump in jumps}) == 1
    assert jumps[0].body_weight_N.value == pytest.approx(known.body_weight_N, rel=weight_within)
    assert jumps[0].verdict.believed == "both"
    for jump, flight_s in zip(jumps, known.flights_s, strict=True):
        by_crossing_m = 9.80665 * flight_s**2 / 8
        assert jump.flight_at_threshold_s == pytest.approx(flight_s, abs=0.003)
        assert jump.rise_by_flight_m.value == pytest.approx(by_crossing_m, abs=0.01)
        if jump.rise_by_impulse_m is not None and jump.verdict.impulse:
            assert jump.rise_by_impulse_m.value == pytest.approx(by_crossing_m, abs=written_within_m)


@pytest.mark.parametrize("every", [2, 4, 5, 10])
@pytest.mark.parametrize("name", ["slow_squat_jumps_003.csv", "slow_squat_jumps_010.csv", "GRFZjump.txt"])
def test_flight_of_samples_left_out_is_off_by_no_more_than_its_error(name, every, recordings, rule):
    """Every second to tenth sample kept, down to 100 a second, from each of so many starts."""
    if not (recordings / name).is_file():
        pytest.skip(f"{name} is not here")
    record = read_record(
        (recordings / name).read_bytes(), name, RecordOptions(rate_Hz=600) if name.endswith("txt") else None
    )
    if record.rate_Hz / every < rule.lowest_rate_Hz:
        pytest.skip("fewer samples than are read")
    whole = analyse(record, rule, Options(take_all=True), Notebook())
    off = []
    for start in range(every):
        thin = ForceRecord(name, record.rate_Hz / every, list(record.force_N[start::every]))
        jumps = analyse(thin, rule, Options(take_all=True), Notebook())
        assert len(jumps) == len(whole)
        for jump, full in zip(jumps, whole, strict=True):
            error_s = np.hypot(jump.flight_s.se, full.flight_s.se)
            off.append((jump.flight_s.value - full.flight_s.value) / error_s)
            assert jump.flight_s.value <= jump.flight_at_threshold_s + 1 / jump.rate_Hz
    assert np.sqrt(np.mean(np.square(off))) < most_of_its_error
