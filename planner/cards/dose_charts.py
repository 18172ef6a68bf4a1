"""The charts of the overview: each week's dose in each currency, against its target."""

from __future__ import annotations

from collections.abc import Sequence

from reportlab.pdfgen.canvas import Canvas

from planner.cards.charts import Edges, WeekChart, chart_picture
from planner.cards.marks import Drawable
from planner.domain.block import Band, Block, Week
from planner.domain.card_layout import CardLayout
from planner.domain.terms import JOINTS, LIFT_QUALITIES, TIERS, Joint, Quality, Tier

CHART_HEIGHTS = (98.0, 86.0, 76.0, 70.0)  # points; lower ones only where they save a page
_GAP = 14.0
_NARROWEST, _WEEK = 92.0, 7.5  # points: the least width of a chart, and of a week's label


class ChartRow:
    """Charts of equal width side by side, filled from the left."""

    def __init__(self, charts: Sequence[WeekChart], columns: int, width: float, height: float) -> None:
        self._charts = charts
        self._chart_width = (width - _GAP * (columns - 1)) / columns
        self.height = height

    def draw(self, canvas: Canvas, x: float, top: float) -> None:
        for chart in self._charts:
            chart_picture(chart, self._chart_width, self.height).draw(canvas, x, top - self.height)
            x += self._chart_width + _GAP


def chart_rows(block: Block, layout: CardLayout, width: float, height: float) -> list[Drawable]:
    """Working sets, contacts, sprints and joint stress, with as many charts a row as the width allows."""
    narrowest = max(_NARROWEST, _WEEK * len(block.weeks))
    columns = max(1, int((width + _GAP) / (narrowest + _GAP)))
    charts = [*_sets(block, layout), *_contacts(block, layout), _sprints(block, layout), *_stress(block, layout)]
    return [ChartRow(charts[at : at + columns], columns, width, height) for at in range(0, len(charts), columns)]


def _chart(block: Block, title: str, unit: str, values: list[tuple[float, ...]], bands: list[Edges]) -> WeekChart:
    return WeekChart(title, unit, [week.number for week in block.weeks], values, bands)


def _edges(band: Band | None) -> Edges:
    return (band.low, band.high) if band is not None else (0.0, 0.0)


def _sets(block: Block, layout: CardLayout) -> list[WeekChart]:
    def one(quality: Quality) -> WeekChart:
        values: list[tuple[float, ...]] = [(week.totals.working_sets.get(quality, 0.0),) for week in block.weeks]
        bands = [_edges(week.bands.working_sets.get(quality)) for week in block.weeks]
        return _chart(block, layout.qualities[quality], layout.overview.sets_a_week, values, bands)

    return [one(quality) for quality in LIFT_QUALITIES]


def _contacts(block: Block, layout: CardLayout) -> list[WeekChart]:
    words = layout.overview

    def all_of(week: Week) -> float:
        return float(sum(week.totals.contacts.values()))

    def one(tier: Tier) -> WeekChart:
        values: list[tuple[float, ...]] = [(float(week.totals.contacts.get(tier, 0)),) for week in block.weeks]
        bands = [_edges(week.bands.tiers.get(tier)) for week in block.weeks]
        title = f"{layout.words.contacts}: {layout.tiers[tier]}"
        return _chart(block, title[0].upper() + title[1:], words.contacts_a_week, values, bands)

    whole = _chart(
        block,
        words.all_contacts,
        words.contacts_a_week,
        [(all_of(week),) for week in block.weeks],
        [_edges(week.bands.contacts) for week in block.weeks],
    )
    return [whole, *(one(tier) for tier in TIERS)]


def _sprints(block: Block, layout: CardLayout) -> WeekChart:
    words = layout.overview
    values: list[tuple[float, ...]] = [(float(week.totals.sprint_efforts),) for week in block.weeks]
    bands = [_edges(week.bands.sprint_efforts) for week in block.weeks]
    return _chart(block, words.sprints_a_week, words.efforts, values, bands)


def _stress(block: Block, layout: CardLayout) -> list[WeekChart]:
    words = layout.overview

    def legs(week: Week, joint: Joint) -> tuple[float, ...]:
        points = week.totals.joint_stress.get(joint)
        return (points.left, points.right) if points else (0.0, 0.0)

    def one(joint: Joint) -> WeekChart:
        ceilings: list[Edges] = [(None, week.bands.joint_stress.get(joint, 0.0)) for week in block.weeks]
        title = f"{layout.joints[joint]}: {words.stress_a_week}"
        return _chart(block, title, words.points, [legs(week, joint) for week in block.weeks], ceilings)

    return [one(joint) for joint in JOINTS]
