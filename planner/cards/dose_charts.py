"""The charts of the overview: each week's dose in each currency, against its target."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from reportlab.pdfgen.canvas import Canvas

from planner.cards import marks
from planner.cards.charts import WeekChart, draw_chart
from planner.cards.marks import Drawable
from planner.domain.block import Band, Block, Week
from planner.domain.card_layout import CardLayout
from planner.domain.terms import JOINTS, LIFT_QUALITIES, TIERS

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
            with marks.origin(canvas, x, top - self.height):
                draw_chart(canvas, chart, self._chart_width, self.height)
            x += self._chart_width + _GAP


def chart_rows(block: Block, layout: CardLayout, width: float, height: float) -> list[Drawable]:
    """Working sets, contacts, sprints and joint stress, with as many charts a row as the width allows."""
    narrowest = max(_NARROWEST, _WEEK * len(block.weeks))
    columns = max(1, int((width + _GAP) / (narrowest + _GAP)))
    charts = list(_charts(block, layout))
    return [ChartRow(charts[at : at + columns], columns, width, height) for at in range(0, len(charts), columns)]


def _charts(block: Block, layout: CardLayout) -> Iterator[WeekChart]:
    words, weeks = layout.overview, block.weeks
    for quality in LIFT_QUALITIES:
        sets = [(week.totals.working_sets.get(quality, 0.0), week.bands.working_sets.get(quality)) for week in weeks]
        yield _chart(weeks, layout.qualities[quality], words.sets_a_week, sets)
    contacts = [(sum(week.totals.contacts.values()), week.bands.contacts) for week in weeks]
    yield _chart(weeks, words.all_contacts, words.contacts_a_week, contacts)
    for tier in TIERS:
        of_tier = [(week.totals.contacts.get(tier, 0), week.bands.tiers.get(tier)) for week in weeks]
        title = f"{layout.words.contacts}: {layout.tiers[tier]}"
        yield _chart(weeks, title[0].upper() + title[1:], words.contacts_a_week, of_tier)
    sprints = [(week.totals.sprint_efforts, week.bands.sprint_efforts) for week in weeks]
    yield _chart(weeks, words.sprints_a_week, words.efforts, sprints)
    for joint in JOINTS:
        points = [week.totals.joint_stress.get(joint) for week in weeks]
        legs = [(one.left, one.right) if one else (0.0, 0.0) for one in points]
        ceilings = [(None, week.bands.joint_stress.get(joint, 0.0)) for week in weeks]
        title = f"{layout.joints[joint]}: {words.stress_a_week}"
        yield WeekChart(title, words.points, [week.number for week in weeks], legs, ceilings)


def _chart(weeks: Sequence[Week], title: str, unit: str, done: Sequence[tuple[float, Band | None]]) -> WeekChart:
    """``done``: each week's figure and its band."""
    bands = [(band.low, band.high) if band is not None else (0.0, 0.0) for _, band in done]
    return WeekChart(title, unit, [week.number for week in weeks], [(float(value),) for value, _ in done], bands)
