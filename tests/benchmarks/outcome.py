"""How honest the printed outcome of a block is: drawn athletes, tested before and after, with and without jump days.

    python -m tests.benchmarks.outcome [--athletes 2000]

Each athlete gains what the rule says is usual (drawn), evenly through the block, or nothing. Tests before and after
have 1 to 3 days of 1 to 5 touches with the shipped errors of day and trial, read to the centimetre; jump days are one a
week of three touches, all a little lower than tests are. Printed: how often the 90 % interval holds the true gain, how
often "it worked" is said where nothing was gained, and the least detectable change by the formula and as simulated.

Where the bare interval of 80 % decides, one in ten looks like a gain by chance. A tape is read to whole centimetres: a
change read as 5 cm is any from 4.5 cm on, which made that up to 11.2 % before the interval was widened by half a step.
The chance of a simulation is told: at 2,000 athletes a share of 10 % is known to 0.7 points, at 100,000 to 0.1.
"""

from __future__ import annotations

import argparse
import math
from dataclasses import dataclass

import numpy as np

from planner.domain.outcome_rule import OutcomeRule
from planner.estimate.belief import believe, interval, worked
from planner.estimate.day_line import slope_weights
from planner.estimate.detectable_change import minimal_detectable_change, worthwhile_m
from planner.estimate.trials import day_se_of, days_and_trials_se, single_se_of
from planner.estimate.uncertainty import Estimate
from planner.files.load import load_benchmarks, load_follow_up
from planner.files.locate import locate_benchmarks, locate_follow_up

DAYS, TRIALS = (1, 2, 3), (1, 2, 3, 4, 5)
WEEKS, SPAN_days, TOUCHES, LOWER_m = 8, 57.0, 3, 0.02
COVER, MOST_WRONG = (0.88, 0.93), 0.10
MULTIPLE = 1.96
# Days, jumps and the change that two such tests can show at 95 %, with a trial of 2.0 and a day of 1.5 cm.
DETECTABLE_cm = {(1, 2): 5.7, (1, 5): 4.8, (2, 3): 3.7, (3, 3): 3.0}
Random = np.random.Generator


@dataclass(frozen=True)
class Errors:
    """Of a touch, metres: the scatter that is drawn, what is stated of one trial and one day, what is worth having."""

    trial_m: float
    step_m: float
    single_m: float
    day_m: float
    worth_m: float


@dataclass(frozen=True)
class Cell:
    days: int
    trials: int
    jump_days: bool
    cover: float
    wrong: float
    athletes: int

    @property
    def holds(self) -> bool:
        """Within the bars; "worked" may be over by what so few athletes leave to chance, two standard errors."""
        return COVER[0] <= self.cover <= COVER[1] and self.wrong <= MOST_WRONG + 2 * chance_of(self.athletes)


def chance_of(athletes: int) -> float:
    """Standard error of a share at the bar."""
    return math.sqrt(MOST_WRONG * (1 - MOST_WRONG) / athletes)


def shipped() -> tuple[OutcomeRule, Errors]:
    rule = load_follow_up(locate_follow_up().path).require().outcome
    benchmarks = load_benchmarks(locate_benchmarks().path).require()
    kind = benchmarks.test_kinds["touch"]
    assert rule is not None
    error, worth_m = kind.error, worthwhile_m(benchmarks.retest)
    return rule, Errors(error.typical_error, error.resolution, single_se_of(kind), day_se_of(kind), worth_m)


def middles(trials: np.ndarray) -> np.ndarray:
    """``estimate.trials.middle`` over the last axis."""
    first, second = np.triu_indices(trials.shape[-1])
    return np.asarray(np.median((trials[..., first] + trials[..., second]) / 2.0, axis=-1))


def tested(random: Random, true_m: np.ndarray, days: int, trials: int, errors: Errors) -> np.ndarray:
    """What each athlete's day reads, (athletes, days), for true heights of the same shape."""
    form = true_m + random.normal(0, errors.day_m, true_m.shape)
    marks = form[..., None] + random.normal(0, errors.trial_m, (*true_m.shape, trials))
    return middles(np.round(marks / errors.step_m) * errors.step_m)


def seen(
    random: Random, gain_m: np.ndarray, days: int, trials: int, jump_days: bool, errors: Errors
) -> tuple[np.ndarray, float]:
    """The seen change of each athlete, and its stated error."""
    start_m = random.uniform(2.9, 3.3, gain_m.shape)[:, None]
    flat = np.ones((1, days))
    before = tested(random, start_m * flat, days, trials, errors).mean(axis=1)
    after = tested(random, (start_m + gain_m[:, None]) * flat, days, trials, errors).mean(axis=1)
    one_se = days_and_trials_se(single_se=errors.single_m, day_se=errors.day_m, days=days, trials=trials)
    change, error = after - before, math.sqrt(2.0) * one_se
    if not jump_days:
        return change, error
    times = np.arange(WEEKS) * 7.0 + 4.0
    day_se = days_and_trials_se(single_se=errors.single_m, day_se=errors.day_m, days=1, trials=TOUCHES)
    line = tested(random, start_m - LOWER_m + gain_m[:, None] * times / SPAN_days, WEEKS, TOUCHES, errors)
    weights = np.array(slope_weights([float(time) for time in times], [day_se] * WEEKS)) * SPAN_days
    line_error = day_se * math.sqrt(float((weights**2).sum()))
    shares = np.array([1 / error**2, 1 / line_error**2])
    together = (shares[0] * change + shares[1] * (line @ weights)) / shares.sum()
    return together, 1 / math.sqrt(float(shares.sum()))


def cell(days: int, trials: int, jump_days: bool, athletes: int, seed: int = 1) -> Cell:
    rule, errors = shipped()
    random = np.random.default_rng([seed, days, trials, int(jump_days)])
    usual = Estimate(rule.jump.gain["intermediate"], rule.jump.spread)
    gain_m = random.normal(usual.value, usual.se, athletes)
    change, error = seen(random, gain_m, days, trials, jump_days, errors)
    low, high = interval(believe(Estimate(change, error), usual), rule.believed_interval)  # type: ignore[arg-type]
    none, none_error = seen(random, np.zeros(athletes), days, trials, jump_days, errors)
    nothing = Estimate(none, none_error)  # type: ignore[arg-type]
    step_m = errors.step_m / (days * min(2, trials))
    wrong = worked(nothing, believe(nothing, usual), errors.worth_m, rule, step_m)
    cover = float(np.mean((low <= gain_m) & (gain_m <= high)))
    return Cell(days, trials, jump_days, cover, float(np.mean(wrong)), athletes)


def detectable_m(days: int, jumps: int, athletes: int = 0, seed: int = 1) -> float:
    """By the formula with a trial of 2.0 and a day of 1.5 cm; with ``athletes``, as the shipped errors scatter it."""
    if not athletes:
        one_se = days_and_trials_se(single_se=0.02, day_se=0.015, days=days, trials=jumps)
        return minimal_detectable_change(one_se, multiple=MULTIPLE)
    random = np.random.default_rng([seed, days, jumps])
    change, _ = seen(random, np.zeros(athletes), days, jumps, False, shipped()[1])
    return MULTIPLE * float(np.std(change))


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--athletes", type=int, default=2000)
    athletes = parser.parse_args().athletes
    print(f"{athletes} athletes a cell; bars: cover {COVER[0]:.0%} to {COVER[1]:.0%}, wrong at most {MOST_WRONG:.0%}")
    print(f"chance of a share near {MOST_WRONG:.0%}: ± {100 * chance_of(athletes):.2f} points, one standard error")
    print(f"{'days':>4}{'trials':>8}{'jump days':>11}{'cover':>8}{'wrong':>8}")
    for jump_days in (False, True):
        for days in DAYS:
            for trials in TRIALS:
                one = cell(days, trials, jump_days, athletes)
                verdict = "ok" if one.holds else "outside the bars"
                with_days = "yes" if jump_days else "no"
                print(f"{days:4}{trials:8}{with_days:>11}{one.cover:8.1%}{one.wrong:8.1%}  {verdict}")
    print("least detectable change, cm: by the formula, as simulated with the shipped errors, asked")
    for (days, jumps), asked in DETECTABLE_cm.items():
        told, drawn = 100 * detectable_m(days, jumps), 100 * detectable_m(days, jumps, 20 * athletes)
        print(f"  {days} x {jumps}: {told:.2f}  {drawn:.2f}  {asked}")


if __name__ == "__main__":
    main()
