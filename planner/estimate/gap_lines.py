"""The estimate as plain records, as the block keeps it and ``gap --json`` prints it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields

from planner.domain.gap_record import GapLine, HeightLine, QualityLine
from planner.domain.terms import Quality
from planner.estimate.athlete_emphasis import AthleteEmphasis
from planner.estimate.force_gap import TakeOffEstimate
from planner.estimate.heights import Height
from planner.estimate.qualities import Judgement, QualityResult
from planner.estimate.quality_readings import unit_of
from planner.estimate.uncertainty import Estimate


def take_off_line(take_off: TakeOffEstimate) -> GapLine:
    figures: dict[str, float] = {}
    for field in fields(take_off):
        estimate: Estimate = getattr(take_off, field.name)
        figures[field.name] = estimate.value
        figures[f"{field.name}_se"] = estimate.se
    return GapLine(**figures)


def quality_lines(result: QualityResult, emphasis: AthleteEmphasis) -> list[QualityLine]:
    """The judgements that count, then those of the other leg or test; if nothing was tested, a line with the need."""
    lines = [_tested_line(result.quality, one, emphasis, counts=True) for one in result.counted]
    lines += [_tested_line(result.quality, one, emphasis, counts=False) for one in result.shown]
    if result.tested:
        return lines
    untested = QualityLine(
        quality=result.quality,
        side=result.first_test.sides,
        status="untested",
        have=None,
        need=result.first_need,
        unit=unit_of(result.first_test),
        deficit=0.0,
        confidence=0.0,
        emphasis=emphasis.tilts[result.quality],
        source=f"not done: {result.first_test.name}",
    )
    return [untested, *lines]


def _tested_line(quality: Quality, judgement: Judgement, emphasis: AthleteEmphasis, *, counts: bool) -> QualityLine:
    reading = judgement.reading
    return QualityLine(
        quality=quality,
        side=reading.side,
        status="tested",
        have=reading.have,
        need=judgement.need,
        unit=reading.unit,
        deficit=judgement.deficit,
        confidence=judgement.confidence,
        emphasis=emphasis.tilts[quality],
        source=reading.source,
        deficit_se=judgement.deficit_se,
        emphasis_se=emphasis.tilts_se[quality],
        counts=counts,
    )


def height_lines(heights: Sequence[Height], counts: Height) -> list[HeightLine]:
    return [
        HeightLine(
            test=one.described(),
            method=one.method,
            rise_m=one.rise_m.value,
            rise_m_se=one.rise_m.se,
            counts=one is counts,
        )
        for one in heights
    ]
