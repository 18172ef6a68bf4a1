"""What came of each athlete's block: the changes of the target jump as lines on one axis, the largest first."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Literal

from planner.cards.outcome_pictures import Strips
from planner.cards.wide_table import WidePicture
from planner.estimate.belief import Verdict, interval
from planner.jobs.outcome_report import change_strip
from planner.units import UNITS

MOST_ON_A_PAGE = 24
NO_RANKING = "Differences within a line's length are no ranking."
READ = (
    "Ring: seen. Dot: to be believed; thick line 50 %, thin line 90 % sure. "
    "Box: too small to matter. Hatched: what such blocks bring. Words: whether it is worth having."
)
LINE = 0.9  # of the thin line


def change_pages(squad: str, changes: Mapping[str, Verdict], unit: Literal["cm", "in"] = "cm") -> list[WidePicture]:
    """``changes``: in metres, by the athlete's name; ``unit``: as they are drawn. No page where there are none."""
    in_unit = 1 / UNITS["length"][unit]
    strips = [
        change_strip(
            name,
            replace(one, interval=interval(one.believed, LINE)),
            in_unit,
            f"{in_unit * one.believed.value:+.1f} {unit}, {one.words}",
        )
        for name, one in sorted(changes.items(), key=lambda item: (-item[1].believed.value, item[0]))
    ]
    pages = [strips[at : at + MOST_ON_A_PAGE] for at in range(0, len(strips), MOST_ON_A_PAGE)]
    title, subtitle = f"{squad}: what came of the block", f"{NO_RANKING}\n{READ}"
    return [WidePicture(title, subtitle, Strips("Change of the target jump", unit, page, strips)) for page in pages]
