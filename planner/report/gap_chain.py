"""The chain on the gap's page: from a test, through its deficit and confidence, to a share of the week's sets."""

from __future__ import annotations

from collections.abc import Mapping

from planner.domain.terms import LIFT_QUALITIES, QUALITY_NAMES, Quality
from planner.estimate.disagreements import deficit_words
from planner.estimate.emphasis import emphasised_sets, tilt
from planner.estimate.estimate_gap import GapResult
from planner.estimate.qualities import QualityResult
from planner.report.terminal import wrap

TOLD_APART = 0.005  # half of the last place that is printed
FIXED = (
    "Gym time is fixed: what one quality gains, the others lose, so an unchanged share may still lose part of a set."
)


def chain(result: GapResult, base_sets: Mapping[Quality, float] | None) -> str:
    """A line for each tested quality; the untested ones share a line. ``base_sets``: the template's own week."""
    lines = ["FROM TEST TO EMPHASIS"]
    emphasis, sets = result.emphasis, None
    if base_sets:
        sets = emphasised_sets(base_sets, emphasis.tilts, emphasis.freed.lifts, emphasis.surely_short)
    for quality, verdict in result.qualities.items():
        if verdict.tested:
            link = _link(verdict, emphasis.tilts[quality], quality) + _by_its_error(verdict, result)
            lines.append(wrap(f"{QUALITY_NAMES[quality]}: {link}{_sets(quality, base_sets, sets)}", "  "))
    untested = [QUALITY_NAMES[quality] for quality, verdict in result.qualities.items() if not verdict.tested]
    if untested:
        lines.append(wrap(f"untested, so the share stays: {', '.join(untested)}", "  "))
    if emphasis.freed.lifts < 1:
        lines.append(wrap(_freed(emphasis.freed.lifts), "  "))
    if emphasis.strong_and_sure:
        lines.append(wrap("Strong enough, and sure of it: strength at maintenance from the intensify phase on.", "  "))
    return "\n".join([*lines, wrap(FIXED, "  ")] if emphasis.freed.lifts == 1 else lines)


def _freed(lifts: float) -> str:
    return (
        f"Every lift quality is over: the lifts keep {100 * lifts:.0f} % of their sets, and sprints "
        "and the more intense jumps get the time, as far as growth and ceilings allow."
    )


def _link(verdict: QualityResult, factor: float, quality: Quality) -> str:
    tests = " and ".join(judgement.reading.label for judgement in verdict.counted)
    push = f"{tests} -> {deficit_words(verdict.deficit, digits=1)} × confidence {100 * verdict.confidence:.0f} %"
    if factor == 1.0:
        return f"{push}: too little to act on, the share stays"
    what = " of sprints and the most intense jumps" if quality == "speed-exposure" else ""
    return f"{push} -> share{what} × {factor:.2f}"


def _by_its_error(verdict: QualityResult, result: GapResult) -> str:
    """Where the deficit's error, not its size, sets the share."""
    plain = tilt(
        verdict.quality, deficit=verdict.deficit, confidence=verdict.confidence, rule=result.benchmarks.emphasis
    )
    if abs(plain - result.emphasis.tilts[verdict.quality]) < TOLD_APART:
        return ""
    less = "no more" if plain > result.emphasis.tilts[verdict.quality] else "no less"
    return f", {less} by its error of ± {100 * verdict.deficit_se:.0f} %"


def _sets(quality: Quality, base_sets: Mapping[Quality, float] | None, sets: Mapping[Quality, float] | None) -> str:
    if base_sets is None or sets is None or quality not in LIFT_QUALITIES:
        return ""
    return f" -> {base_sets.get(quality, 0.0):.1f} to {sets[quality]:.1f} sets a week"
