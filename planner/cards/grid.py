"""The card's grid in points: a narrow column for side-heads, a wide one for the work; and the density of its type."""

from __future__ import annotations

from dataclasses import dataclass

from planner.cards.paper import Frame
from planner.domain.card_layout import Measures

POINTS_PER_m = 72 / 0.0254  # PDF's unit is 1/72 inch (ISO 32000-1, 8.3.2.3)
_GUTTER_SHARE = 0.165
# A long session is set a little smaller before it is sent on to a second card; below this arm's length is too far.
DENSITIES: tuple[float, ...] = (1.0, 0.95, 0.9)


@dataclass(frozen=True)
class Grid:
    """``frame`` is what lies inside the margins; ``scale`` multiplies type and spacing, never the writing boxes."""

    frame: Frame
    scale: float
    box_height: float
    boxes_up_to: int

    @property
    def gutter(self) -> float:
        return self.frame.width * _GUTTER_SHARE

    @property
    def body(self) -> float:
        return self.frame.width - self.gutter

    @property
    def body_x(self) -> float:
        return self.frame.x + self.gutter


def grid_on(card: Frame, measures: Measures, scale: float = 1.0) -> Grid:
    return Grid(
        frame=card.inset(measures.margin * POINTS_PER_m),
        scale=scale,
        box_height=measures.box_height * POINTS_PER_m,
        boxes_up_to=measures.boxes_up_to,
    )
