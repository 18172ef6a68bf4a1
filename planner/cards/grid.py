"""The card's grid in points: a narrow column for side-heads and a wide one for the work; and the type's density."""

from __future__ import annotations

from dataclasses import dataclass

from planner.cards.paper import Rectangle
from planner.domain.card_layout import Measures

POINTS_PER_m = 72 / 0.0254  # PDF's unit is 1/72 inch (ISO 32000-1, 8.3.2.3)
_GUTTER_SHARE = 0.165


@dataclass(frozen=True)
class Density:
    """``scale`` multiplies type and spacing; ``run_on`` puts cue, note and caution one after another on a line."""

    scale: float = 1.0
    run_on: bool = False
    row_space: float = 7.0  # points of white in a row, before the scale
    box_share: float = 1.0  # of the layout's box height


AIRY = Density()
# A long session is set tighter before it takes a second card; smaller type cannot be read at arm's length.
DENSITIES: tuple[Density, ...] = (
    Density(1.2, box_share=1.1),
    Density(1.1, box_share=1.1),
    AIRY,
    Density(0.95),
    Density(0.9),
    Density(0.9, run_on=True),
    Density(0.9, run_on=True, row_space=5.0, box_share=0.93),
)


@dataclass(frozen=True)
class Grid:
    """``frame`` is the area inside the margins. The writing boxes hardly change their size with the density."""

    frame: Rectangle
    density: Density
    box_height: float
    boxes_up_to: int

    @property
    def scale(self) -> float:
        return self.density.scale

    @property
    def gutter(self) -> float:
        return self.frame.width * _GUTTER_SHARE

    @property
    def body(self) -> float:
        return self.frame.width - self.gutter


def grid_on(card: Rectangle, measures: Measures, density: Density = AIRY) -> Grid:
    return Grid(
        frame=card.inset(measures.margin * POINTS_PER_m),
        density=density,
        box_height=measures.box_height * POINTS_PER_m * density.box_share,
        boxes_up_to=measures.boxes_up_to,
    )
