"""One-repetition maxima of every tested lift, by movement and side."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import Benchmarks, StrengthRule
from planner.domain.measure import LiftTest
from planner.estimate.findings import Notebook
from planner.estimate.strength import Formula, OutOfRange, brzycki_kg, epley_kg, one_rm_kg
from planner.estimate.uncertainty import Estimate
from planner.estimate.words import Words

LiftSide = Literal["both", "left", "right"]
LiftKey = tuple[str, LiftSide]


@dataclass(frozen=True)
class LiftMaximum:
    """Maximum as load on the bar or in the hands (kg), also by each formula, and the set it came from.

    ``usual_se_kg``: the error that it would have if its reps in reserve were as certain as usual.
    """

    one_rm_kg: Estimate
    usual_se_kg: float
    test: LiftTest
    epley_kg: float
    brzycki_kg: float

    def describe(self, words: Words) -> str:
        test = self.test
        reserve = f", {test.reps_in_reserve} in reserve" if test.reps_in_reserve else " to failure"
        return f"{words.load(test.load, 2)} x {test.reps}{reserve}"


def lift_maxima(
    athlete: Athlete, benchmarks: Benchmarks, notes: Notebook, body_mass_shares: Mapping[str, float] | None = None
) -> dict[LiftKey, LiftMaximum]:
    """The best set of the latest day for each lift and side. Sets beyond the formulas' range are reported and left out.

    ``body_mass_shares``: the share of body mass that each movement lifts. If the library doses a lift by percent, the
    maximum must be computed with the library's share, so it takes precedence over the benchmarks'. A lift known to
    neither counts its load alone.
    """
    rules = _rules(benchmarks)
    rules.update({movement: (share, None) for movement, share in (body_mass_shares or {}).items()})
    maxima: dict[LiftKey, LiftMaximum] = {}
    for number, test in enumerate(athlete.tests):
        if not isinstance(test, LiftTest):
            continue
        share, formula = rules.get(test.movement, (0.0, None))
        guessed = test.reps_in_reserve > benchmarks.strength.most_reserve
        try:
            usual = _maximum(test, athlete, share, formula, benchmarks.strength, guessed=False)
        except OutOfRange as refusal:
            notes.add(
                "warning", "reps-past-range", f"{test.movement} is not used: {refusal}", at=("tests", number, "reps")
            )
            continue
        maximum = usual
        if guessed:
            maximum = _maximum(test, athlete, share, formula, benchmarks.strength, guessed=True)
            _note_guess(test, number, benchmarks.strength, notes)
        key: LiftKey = (test.movement, test.side or "both")
        held = maxima.get(key)
        body_kg, total = share * athlete.body_mass, test.reps + test.reps_in_reserve
        system_kg = test.load + body_kg
        new = LiftMaximum(
            maximum,
            usual.se,
            test,
            epley_kg(load_kg=system_kg, reps_to_failure=total) - body_kg,
            brzycki_kg(load_kg=system_kg, reps_to_failure=total) - body_kg,
        )
        if held is None or _rank(new) > _rank(held):
            maxima[key] = new
    return dict(sorted(maxima.items()))


def _maximum(
    test: LiftTest, athlete: Athlete, share: float, formula: Formula | None, rule: StrengthRule, *, guessed: bool
) -> Estimate:
    return one_rm_kg(
        load_kg=test.load,
        reps=test.reps,
        reps_in_reserve=test.reps_in_reserve,
        body_mass_kg=athlete.body_mass,
        body_mass_share=share,
        formula=formula,
        most_reps=rule.most_reps,
        reserve_error_reps=rule.guessed_reserve_error_reps if guessed else rule.reserve_error_reps,
    )


def _note_guess(test: LiftTest, number: int, rule: StrengthRule, notes: Notebook) -> None:
    notes.add(
        "note",
        "reserve-is-a-guess",
        f"{test.movement}: {test.reps_in_reserve} in reserve is a guess beyond {rule.most_reserve}, so the set is "
        "believed less",
        hint="take a set that ends with 1 to 3 in reserve",
        at=("tests", number, "reps_in_reserve"),
    )


def _rank(maximum: LiftMaximum) -> tuple[str, float]:
    return maximum.test.date.isoformat(), maximum.one_rm_kg.value


def _rules(benchmarks: Benchmarks) -> dict[str, tuple[float, Formula | None]]:
    rules: dict[str, tuple[float, Formula | None]] = {}
    for benchmark in benchmarks.qualities.values():
        for test in benchmark.tests:
            if test.lift is not None:
                for movement in test.lift.movements:
                    rules[movement] = (test.lift.body_mass_share, test.lift.formula)
    return rules
