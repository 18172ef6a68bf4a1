"""How well a lift's maximum is followed: error after eight weeks and cover of the stated band, simulated.

    python -m tests.benchmarks.lift_filter [--athletes 4000]

Each drawn athlete has a true maximum that drifts and wanders as templates/follow-up says, a test with its error, and
two sessions a week whose first set is read with a day's form and a misjudged reserve. Compared after the last session:
the last set alone, the mean of the last three, a level without a drift, and the level with its drift. A person's
constant bias is taken off (it cancels in advice on load); with it the error is larger, as the last column shows.
"""

from __future__ import annotations

import argparse
import math
from collections.abc import Sequence

import numpy as np

from planner.domain.follow_up import LiftFollowing
from planner.files.load import load_follow_up
from planner.files.locate import locate_follow_up
from planner.past.lift_filter import EPLEY_reps, LiftLevel, Reading, follow, start_level

WEEKS, A_WEEK, REPS = 8, 2, 5
BIAS_percent = 3.0  # one athlete's constant bias of stated reserve and formula, one standard deviation; own judgement
# Reps left in the first set, week by week: near failure, as the blocks plan it, and far from it.
RESERVES = {"1 left": (1,) * WEEKS, "1 to 2 left": (2, 2, 1, 2, 2, 1, 1, 1), "4 to 2 left": (4, 3, 3, 5, 2, 2, 2, 3)}
AIM_percent, AIM_WITHIN = 1.6, 0.2
TWO_SIDED_95 = 1.960  # standard errors, of the normal curve
COVER = (0.90, 0.97)


def drawn(rng: np.random.Generator, left: Sequence[int], rule: LiftFollowing) -> tuple[float, LiftLevel, list[Reading]]:
    """The true level after the last session, the test's level, and the readings."""
    drift, level, now = rng.normal(rule.drift_percent_a_week, rule.drift_error_percent), 500.0, 0.0
    test = start_level(math.exp(rng.normal(level, rule.test_error_percent) / 100), rule.test_error_percent, rule)
    readings = []
    for session in range(WEEKS * A_WEEK):
        week = session / A_WEEK
        level += drift * (week - now) + rng.normal(0, rule.wander_percent * math.sqrt(week - now))
        now, reserve = week, left[int(week)]
        rep_percent = 100 / (EPLEY_reps + REPS + reserve)
        reserve_error = rule.reserve_error_reps + rule.reserve_error_per_rep * reserve
        seen = level + rng.normal(0, rule.form_percent) + rng.normal(0, reserve_error) * rep_percent
        readings.append(Reading(week, seen, math.hypot(rule.form_percent, reserve_error * rep_percent)))
    return level, test, readings


def measured(left: Sequence[int], athletes: int, rule: LiftFollowing, seed: int = 1) -> dict[str, float]:
    """Root-mean-square errors in percent of each way, and the cover of the 95 % band."""
    rng = np.random.default_rng(seed)
    errors: dict[str, list[float]] = {"last": [], "three": [], "level": [], "drift": [], "biased": []}
    covered = 0
    for _ in range(athletes):
        true, test, readings = drawn(rng, left, rule)
        whole = follow(test, readings, rule)
        still = LiftLevel(test.level, test.error, 0.0, 1e-6)
        errors["last"].append(readings[-1].level - true)
        errors["three"].append(sum(one.level for one in readings[-3:]) / 3 - true)
        errors["level"].append(follow(still, readings, rule).level - true)
        errors["drift"].append(whole.level - true)
        errors["biased"].append(whole.level - true + rng.normal(0, BIAS_percent))
        covered += abs(whole.level - true) <= TWO_SIDED_95 * whole.error
    found = {name: math.sqrt(sum(error**2 for error in own) / athletes) for name, own in errors.items()}
    return {**found, "cover": covered / athletes}


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--athletes", type=int, default=4000)
    athletes = parser.parse_args().athletes
    rule = load_follow_up(locate_follow_up().path).require().lifts
    print(f"{athletes} athletes, {WEEKS} weeks, {A_WEEK} sessions a week, sets of {REPS}; errors in percent")
    print(f"{'first set':14}{'last':>8}{'three':>8}{'level':>8}{'drift':>8}{'biased':>8}{'cover':>8}")
    for name, left in RESERVES.items():
        found = measured(left, athletes, rule)
        ways = "".join(f"{found[way]:8.2f}" for way in ("last", "three", "level", "drift", "biased"))
        near = abs(found["drift"] - AIM_percent) <= AIM_WITHIN
        inside = COVER[0] <= found["cover"] <= COVER[1]
        print(f"{name:14}{ways}{100 * found['cover']:7.1f}%  {'ok' if near and inside else 'outside the aim'}")


if __name__ == "__main__":
    main()
