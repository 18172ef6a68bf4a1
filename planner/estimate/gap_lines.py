"""The estimate as plain records, as the block keeps it and ``gap --json`` prints it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import fields

from planner.domain.gap_record import GapLine, HeightLine, QualityLine
from planner.domain.terms import Quality
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


def quality_lines(
    result: QualityResult, tilted: Mapping[Quality, float], tilted_se: Mapping[Quality, float]
) -> list[QualityLine]:
    """The judgements that count, then those of the other leg or test; if nothing was tested, a line with the need."""
    lines = [_tested_line(result.quality, one, tilted, tilted_se) for one in result.counted]
    shown = [_tested_line(result.quality, one, tilted, tilted_se) for one in result.shown]
    lines += [line.model_copy(update={"counts": False}) for line in shown]
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
        emphasis=tilted[result.quality],
        source=f"not done: {result.first_test.name}",
    )
    return [untested, *lines]


def _tested_line(
    quality: Quality, judgement: Judgement, tilted: Mapping[Quality, float], tilted_se: Mapping[Quality, float]
) -> QualityLine:
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
        emphasis=tilted[quality],
        source=reading.source,
        deficit_se=judgement.deficit_se,
        emphasis_se=tilted_se[quality],
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
