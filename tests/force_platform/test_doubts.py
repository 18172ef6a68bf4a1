"""What is not believed is not written, and what is written in doubt says so wherever its number is used."""

import re
import shutil
from dataclasses import replace

import numpy as np
import pytest

from planner.cli.check import command as check
from planner.cli.gap import command as gap
from planner.cli.platform import command as platform
from planner.domain.findings import UserError
from planner.estimate.uncertainty import Estimate
from planner.files.load import load_athlete
from planner.force_platform.verdict import ImpulseBasis, verdict_of
from tests.estimate.people import CHECKOUT
from tests.force_platform.running import run
from tests.force_platform.simulate import SHAPES, simulate
from tests.force_platform.test_weight_of_a_record import SLOW_SQUAT

STANDING_JUMPER = CHECKOUT / "templates/athletes/youth-two-leg-jumper.yaml"
INTO = "2025-09-20"


@pytest.fixture
def athlete(tmp_path):
    path = tmp_path / "athlete.yaml"
    shutil.copyfile(STANDING_JUMPER, path)
    return path


def squats(*, quiet_s):
    """Two slow squat jumps; ``quiet_s``: still standing before the second."""
    first = simulate(replace(SLOW_SQUAT, after_s=0.02), mass_kg=55.0, noise_N=2.0, seed=1).record.force_N
    second = simulate(replace(SLOW_SQUAT, quiet_s=quiet_s), mass_kg=55.0, noise_N=2.0, seed=2).record.force_N
    return np.concatenate([first, second])


def written(force, tmp_path, heading="Time [s],Fz [N]", rate_Hz=1000):
    path = tmp_path / "record.csv"
    path.write_text("\n".join([heading, *(f"{n / rate_Hz:.4f},{value:.2f}" for n, value in enumerate(force))]))
    return path


def test_height_that_is_not_believed_is_not_written(tmp_path, athlete):
    record = written(squats(quiet_s=0.02), tmp_path)
    done = run(platform, record, "--all", "--into", athlete, "--date", INTO)
    assert done.exit_code == 0, done.output
    assert f"{record}: warning: [believed] jump 2" in done.stderr
    first, second = load_athlete(athlete).require().tests[-1].trials
    assert first.rise_by_impulse is not None
    assert first.flight is not None
    assert first.doubt is None
    assert second.rise_by_impulse is None
    assert second.push_off is None
    assert "no still stand before the jump" in second.doubt
    assert "The height by flight is believed" in done.stdout


def test_gap_and_check_repeat_the_doubt(tmp_path, athlete):
    text = athlete.read_text("utf-8")
    athlete.write_text(text.replace("touch: 2.68 m\n  method: touch", "rise: 46 cm\n  method: flight-time"), "utf-8")
    record = written(squats(quiet_s=0.02), tmp_path)
    run(platform, record, "--all", "--into", athlete, "--date", INTO, "--arms", "free")
    line = 1 + next(n for n, text in enumerate(athlete.read_text("utf-8").splitlines()) if " doubt:" in text)
    checked = run(check, athlete)
    assert f"athlete.yaml:{line}" in checked.output
    assert "[platform-doubt]" in checked.output
    told = run(gap, athlete)
    assert told.exit_code == 0, told.output
    assert "platform-doubt" in told.stderr
    text = " ".join(told.stdout.split())
    assert "Height by flight-time, all 2 trials. In doubt: the height by flight is believed" in text
    assert "in doubt: the height by flight is believed" in " ".join(run(gap, athlete, "--full").stdout.split())


def test_nothing_is_written_where_no_height_is_believed(tmp_path, athlete):
    """The rate twice what it was: heights of a quarter, a push-off of some ten centimetres."""
    before = athlete.read_bytes()
    jump = simulate(SHAPES["one hump"], mass_kg=55.0, noise_N=2.0).record.force_N
    record = tmp_path / "column.txt"
    record.write_text("\n".join(["Fz [N]", *(f"{value:.2f}" for value in jump)]))
    done = run(platform, record, "--rate", 2000, "--into", athlete, "--date", INTO)
    assert done.exit_code == 1
    assert "[nothing-believed]" in done.stderr
    assert "2000 samples a second" in done.stderr
    assert athlete.read_bytes() == before


def test_trial_without_any_height_is_a_finding(tmp_path, athlete):
    run(platform, written(squats(quiet_s=0.02), tmp_path), "--all", "--into", athlete, "--date", INTO)
    text = athlete.read_text("utf-8")
    athlete.write_text(re.sub(r"\{flight: [\d.]+ s, flight_error: [\d.]+ s, ", "{", text), "utf-8")
    with pytest.raises(UserError, match="gives no height"):
        load_athlete(athlete).require()


# --- the verdict itself -------------------------------------------------------------------------------------------


def basis(rise_m, se_m=0.005, *, long_stand=True, two_sided=False):
    return ImpulseBasis(Estimate(rise_m, se_m), long_stand, two_sided)


@pytest.mark.parametrize(
    ("impulse", "believed", "because"),
    [
        (basis(0.30), "both", ""),
        (basis(0.32), "both", ""),
        (basis(0.31, 0.02), "flight", "no better than ± 2.0 cm"),
        (basis(0.25), "impulse", "bent legs"),
        (basis(0.25, two_sided=True), "impulse", "both sides"),
        (basis(0.25, long_stand=False), "flight", "too short or too restless"),
        (basis(0.40, long_stand=False), "flight", "10.0 cm less than impulse"),
        (basis(0.40), "neither", "more than landing with bent legs"),
        (basis(0.18), "neither", "more than landing with bent legs"),
        (None, "flight", "no still stand"),
    ],
)
def test_which_height_is_believed(impulse, believed, because, rule):
    verdict = verdict_of(Estimate(0.30, 0.002), impulse, rule)
    assert verdict.believed == believed
    assert because in verdict.why


def test_no_height_written_in_agreement_is_four_centimetres_off_the_other(rule):
    """Whatever the impulse's error, up to the largest that is written."""
    for se_m in np.linspace(0.0, rule.trust.impulse_error_over, 14):
        for apart_m in (-0.04, 0.04):
            assert verdict_of(Estimate(0.30, 0.001), basis(0.30 + apart_m, se_m), rule).believed != "both"
