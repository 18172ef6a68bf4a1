"""The push-off that a platform measured: in the athlete's file, and in the force gap of a jump from a stand."""

import shutil

import pytest
from click.testing import CliRunner

from planner.cli.platform import command
from planner.estimate.estimate_gap import estimate_gap
from planner.estimate.trials import middle
from planner.files.load import load_athlete
from tests.estimate.people import CHECKOUT, shipped_benchmarks
from tests.force_platform.simulate import SHAPES, simulate

STANDING_JUMPER = CHECKOUT / "templates/athletes/youth-two-leg-jumper.yaml"


@pytest.fixture
def athlete(tmp_path):
    """The demo athlete whose target is a jump from a stand, with three platform jumps in the file."""
    path = tmp_path / "athlete.yaml"
    shutil.copyfile(STANDING_JUMPER, path)
    records = []
    for seed in (1, 2, 3):
        record = simulate(SHAPES["one hump"], mass_kg=55.0, noise_N=3.0, seed=seed).record
        rows = "\n".join(f"{n / 1000:.3f},{force:.2f}" for n, force in enumerate(record.force_N))
        records.append(str(tmp_path / f"jump{seed}.csv"))
        (tmp_path / f"jump{seed}.csv").write_text(f"Time [s],Fz [N]\n{rows}")
    done = CliRunner().invoke(command, [*records, "--into", str(path), "--date", "2025-09-20"])
    assert done.exit_code == 0, done.output
    return load_athlete(path).require()


def test_trials_keep_the_push_off(athlete):
    distances = [trial.push_off for trial in athlete.tests[-1].trials]
    assert len(distances) == 3
    assert max(distances) - min(distances) < 0.01
    assert 0.2 < distances[0] < 0.6


def test_gap_takes_it_instead_of_the_stand_in(athlete):
    benchmarks = shipped_benchmarks()
    result = estimate_gap(athlete, benchmarks)
    mean_m = middle([trial.push_off for trial in athlete.tests[-1].trials])
    assert result.gap.push_off_m == pytest.approx(mean_m)
    assert "force platform, mean of 3 (2025-09-20)" in result.gap.contact_time_from
    assert "push-off-estimate" not in {finding.code for finding in result.findings}
    without = estimate_gap(athlete.model_copy(update={"tests": athlete.tests[:-1]}), benchmarks)
    assert "push-off-estimate" in {finding.code for finding in without.findings}
    assert result.inputs.push_off_m.se < without.inputs.push_off_m.se
    # m g (h / d + 1): a longer way asks for less force
    now = result.gap.now
    assert now.mean_ground_force_N == pytest.approx(athlete.body_mass * 9.80665 * (now.rise_m / mean_m + 1), rel=1e-6)


def test_jumps_of_another_take_off_say_nothing_of_it(athlete):
    other = athlete.tests[-1].model_copy(update={"take_off": "one-leg left"})
    result = estimate_gap(athlete.model_copy(update={"tests": (*athlete.tests[:-1], other)}), shipped_benchmarks())
    assert "push-off-estimate" in {finding.code for finding in result.findings}
