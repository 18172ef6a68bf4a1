"""One-repetition maxima of every tested lift, by movement and side."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import Benchmarks, StrengthRule
from planner.domain.measure import LiftTest
from planner.estimate.notebook import Notebook
from planner.estimate.strength import Formula, OutOfRange, brzycki_kg, epley_kg, one_rm_kg
from planner.estimate.trials import day_se_of, mean_of_days, single_se_of
from planner.estimate.uncertainty import Estimate
from planner.estimate.words import Words
from planner.units import counted

LiftSide = Literal["both", "left", "right"]
LiftKey = tuple[str, LiftSide]  # movement and side


@dataclass(frozen=True)
class LiftMaximum:
    """Maximum as load on the bar or in the hands (kg), by either formula too, from all sets of one test.

    ``one_rm_kg.se`` joins what the sets, the day and the formulas err by; ``trials_se_kg`` leaves the day out, which is
    the same for both legs. ``usual_se_kg``: the error of one such set on one day, its reserve stated as
    surely as usual. ``name``: the lift's; ``test``: the latest set; ``sets``: how many counted.
    """

    name: str
    one_rm_kg: Estimate
    usual_se_kg: float
    trials_se_kg: float
    test: LiftTest
    sets: int
    epley_kg: float
    brzycki_kg: float

    def describe(self, words: Words) -> str:
        test = self.test
        reserve = f", {counted(test.reps_in_reserve, 'rep')} in reserve" if test.reps_in_reserve else " to failure"
        more = f" and {self.sets - 1} more" if self.sets > 1 else ""
        return f"{words.load(test.load, 2)} × {test.reps}{reserve}{more}"


Maxima = Mapping[LiftKey, LiftMaximum]


@dataclass(frozen=True)
class _Set:
    """One set as a maximum. ``formula_kg``: half the gap between the formulas, the same error in every set like it."""

    test: LiftTest
    maximum: Estimate
    usual_se_kg: float
    day_se_kg: float
    lifted_kg: float
    formula_kg: float
    epley_kg: float
    brzycki_kg: float


def lift_maxima(
    athlete: Athlete,
    benchmarks: Benchmarks,
    notes: Notebook,
    body_mass_shares: Mapping[str, float] | None = None,
    names: Mapping[str, str] | None = None,
) -> Maxima:
    """Every set of each lift and side on its latest test days. Sets past the formulas' range are named and left out.

    All sets count, by how sure each is: the best of many would grow with their number. ``body_mass_shares``: share of
    body mass lifted along, by movement. Where the library doses a lift by percent, its share has to be the one the
    maximum was made with, so it goes before the benchmarks' own reading of the same lift; a lift known to neither
    counts its load alone. ``names``: of lifts, as the library has them inside a sentence; else made of their ids.
    """
    rules = _rules(benchmarks)
    rules.update({movement: (share, None) for movement, share in (body_mass_shares or {}).items()})
    found: dict[LiftKey, list[_Set]] = {}
    for number, test in enumerate(athlete.tests):
        if not isinstance(test, LiftTest):
            continue
        try:
            done = _set(test, athlete, benchmarks, *rules.get(test.movement, (0.0, None)))
        except OutOfRange as refusal:
            message, hint = (
                f"{test.movement} is not used: {refusal}",
                "test again with a heavier set of fewer repetitions",
            )
            notes.drop(number, "reps-past-range", message, hint=hint, at=("reps",))
            continue
        if test.reps_in_reserve > benchmarks.strength.most_reserve:
            _note_guess(test, number, benchmarks.strength, notes)
        found.setdefault((test.movement, test.side or "both"), []).append(done)
    return {
        (lift, side): _of_sets(sets, (names or {}).get(lift, lift.replace("-", " ")), benchmarks.retest.together_days)
        for (lift, side), sets in sorted(found.items())
    }


def _set(test: LiftTest, athlete: Athlete, benchmarks: Benchmarks, share: float, formula: Formula | None) -> _Set:
    """Raises OutOfRange where the formulas do not reach."""
    kind, rule = benchmarks.test_kinds["lift"], benchmarks.strength
    usual = _maximum(test, athlete, share, formula, rule, guessed=False)
    own = _maximum(test, athlete, share, formula, rule, guessed=test.reps_in_reserve > rule.most_reserve)
    lifted_kg = own.value + athlete.body_mass  # a lift errs by a share of all that is lifted, the body too
    trial_kg, day_kg = lifted_kg * single_se_of(kind), lifted_kg * day_se_of(kind)
    body_kg, total = share * athlete.body_mass, test.reps + test.reps_in_reserve
    epley, brzycki = (by(load_kg=test.load + body_kg, reps_to_failure=total) - body_kg for by in (epley_kg, brzycki_kg))
    return _Set(
        test=test,
        maximum=Estimate(own.value, math.hypot(own.se, trial_kg)),
        usual_se_kg=math.hypot(usual.se, trial_kg, day_kg),
        day_se_kg=day_kg,
        lifted_kg=lifted_kg,
        formula_kg=abs(epley - brzycki) / 2.0,
        epley_kg=epley,
        brzycki_kg=brzycki,
    )


def _of_sets(sets: Sequence[_Set], name: str, together_days: int) -> LiftMaximum:
    """The sets of the latest day, and of other days near enough to be the same test."""
    latest = max(sets, key=lambda one: one.test.date)
    near = [one for one in sets if (latest.test.date - one.test.date).days <= together_days]
    days = [[one for one in near if one.test.date == date] for date in sorted({one.test.date for one in near})]
    # Errors are shares of what is lifted: taken of one common load, so that no set is trusted more for being low.
    usual_kg = sum(one.lifted_kg for one in near) / len(near)
    pooled = [
        mean_of_days([Estimate(one.maximum.value, one.maximum.se * usual_kg / one.lifted_kg) for one in day])
        for day in days
    ]
    trials = mean_of_days(pooled)
    with_day = mean_of_days(
        [
            Estimate(one.value, math.hypot(one.se, day[0].day_se_kg * usual_kg / day[0].lifted_kg))
            for one, day in zip(pooled, days, strict=True)
        ]
    )
    # The gap between the formulas is in every set: more sets do not make it smaller.
    formula_kg = 0.0 if len(near) == 1 else sum(one.formula_kg for one in near) / len(near)
    return LiftMaximum(
        name=name,
        one_rm_kg=Estimate(with_day.value, math.hypot(with_day.se, formula_kg)),
        usual_se_kg=sum(one.usual_se_kg for one in near) / len(near),
        trials_se_kg=math.hypot(trials.se, formula_kg),
        test=latest.test,
        sets=len(near),
        epley_kg=sum(one.epley_kg for one in near) / len(near),
        brzycki_kg=sum(one.brzycki_kg for one in near) / len(near),
    )


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
        failure_error_reps=rule.failure_error_reps,
    )


def _note_guess(test: LiftTest, number: int, rule: StrengthRule, notes: Notebook) -> None:
    message = (
        f"{test.movement}: {counted(test.reps_in_reserve or 0, 'rep')} in reserve is a guess beyond {rule.most_reserve}"
        ", so the set is believed less"
    )
    hint = "take a set that ends with 1 to 3 reps in reserve"
    notes.add("note", "reserve-is-a-guess", message, hint=hint, at=("tests", number, "reps_in_reserve"))


def _rules(benchmarks: Benchmarks) -> dict[str, tuple[float, Formula | None]]:
    rules: dict[str, tuple[float, Formula | None]] = {}
    for benchmark in benchmarks.qualities.values():
        for test in benchmark.tests:
            if test.lift is not None:
                for movement in test.lift.movements:
                    rules[movement] = (test.lift.body_mass_share, test.lift.formula)
    return rules
