"""What came of each athlete's block: the changes of the target jump as lines on one axis, the largest first."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from planner.cards.outcome_pictures import Strips
from planner.cards.wide_table import WidePicture
from planner.estimate.belief import Verdict, interval
from planner.jobs.outcome_report import change_strip

MOST_ON_A_PAGE = 24
NO_RANKING = "Differences within a line's length are no ranking."
READ = (
    "Ring: seen. Dot: to be believed; thick line 50 %, thin line 90 % sure. "
    "Box: too small to matter. Hatched: what such blocks bring. Words: whether it is worth having."
)
LINE = 0.9  # of the thin line


def change_pages(squad: str, changes: Mapping[str, Verdict]) -> list[WidePicture]:
    """``changes``: in metres, by the athlete's name. No page where there are none."""
    strips = [
        change_strip(
            name,
            replace(one, interval=interval(one.believed, LINE)),
            100.0,
            f"{100 * one.believed.value:+.1f} cm, {one.words}",
        )
        for name, one in sorted(changes.items(), key=lambda item: (-item[1].believed.value, item[0]))
    ]
    pages = [strips[at : at + MOST_ON_A_PAGE] for at in range(0, len(strips), MOST_ON_A_PAGE)]
    title, subtitle = f"{squad}: what came of the block", f"{NO_RANKING} {READ}"
    return [WidePicture(title, subtitle, Strips("Change of the target jump", "cm", page, strips)) for page in pages]
