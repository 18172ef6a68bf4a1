"""Where two tests of one quality say different things beyond their errors: reported, never averaged away."""

from __future__ import annotations

import math
from collections.abc import Mapping

from planner.domain.benchmarks import Benchmarks
from planner.domain.terms import QUALITY_NAMES, Quality
from planner.estimate.notebook import Notebook
from planner.estimate.qualities import Judgement, QualityResult


def note_disagreements(results: Mapping[Quality, QualityResult], benchmarks: Benchmarks, notes: Notebook) -> None:
    """Compare the deciding leg's other tests with the quality's first. They share the need, so its error drops out."""
    for quality, result in results.items():
        if not result.counted:
            continue
        first = result.counted[0]
        others = [
            one
            for one in (*result.counted, *result.shown)
            if one.side in (first.side, "both") and one.reading.test.id != first.reading.test.id
        ]
        for other in others:
            error = math.hypot(first.test_part_se, other.test_part_se)
            if abs(first.deficit - other.deficit) > benchmarks.retest.multiple * error:
                _note(quality, first, other, error, counts=other in result.counted, notes=notes)


def _note(quality: Quality, first: Judgement, other: Judgement, error: float, *, counts: bool, notes: Notebook) -> None:
    apart = abs(first.deficit - other.deficit)
    verdict = "both count, by confidence" if counts else "the first counts, they are not averaged"
    message = (
        f"two tests of {QUALITY_NAMES[quality]} disagree beyond their errors: {first.reading.label} is "
        f"{deficit_words(first.deficit)}, {other.reading.label} {deficit_words(other.deficit)} "
        f"({100 * apart:.0f} ± {100 * error:.0f} % apart); {verdict}"
    )
    notes.add("warning", "tests-in-conflict", message, hint="repeat both on one day; check load, form and side")


def deficit_words(deficit: float, digits: int = 0) -> str:
    """``11 % short`` or ``4 % over``."""
    return f"{abs(100 * deficit):.{digits}f} % {'short' if deficit >= 0 else 'over'}"
