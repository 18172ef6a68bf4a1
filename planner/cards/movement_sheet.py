"""The movements of the block with all their cues, in large type for a wall."""

from __future__ import annotations

from dataclasses import dataclass, field

from planner.cards.card_text import Run, TextBlock
from planner.cards.flow import Page, flow, page_frame
from planner.cards.marks import Drawable
from planner.cards.overview_text import Paragraphs, SectionHeading
from planner.cards.paper import Paper
from planner.domain.block import Block, Item
from planner.domain.card_layout import CardLayout

_NAME, _CUE, _WEEKS = 13.0, 11.5, 9.0
# Smaller type only where it saves a page; any smaller cannot be read from a wall.
_SCALES = (1.3, 1.2, 1.1, 1.0, 0.93, 0.87)
_COLUMN_GAP, _WIDE = 18.0, 430.0  # points


@dataclass
class _Used:
    """A movement of the block: the first item with it, and the weeks that have it."""

    item: Item
    weeks: list[int] = field(default_factory=list)


def _entry(used: _Used, layout: CardLayout, width: float, scale: float) -> Paragraphs:
    item, name, cue_size = used.item, _NAME * scale, _CUE * scale
    blocks = [
        TextBlock(item.name, size=name, width=width, face="bold", leading=name * 1.1),
        TextBlock(f"{layout.sheets.weeks} {ranges(used.weeks)}", size=_WEEKS * scale, width=width),
        *(TextBlock(f"• {cue}", size=cue_size, width=width) for cue in item.cues),
    ]
    for caution in item.cautions:
        runs: list[Run] = [("bold", layout.words.caution), ("semibold", caution)]
        blocks.append(TextBlock(runs, size=cue_size * 0.9, width=width))
    return Paragraphs(blocks, space=0.0)


def movement_pages(block: Block, layout: CardLayout, paper: Paper) -> list[Page]:
    """Every movement that has sets in the block, once, under its part; on as few pages as stay readable."""
    return min((_pages(block, layout, paper, scale) for scale in _SCALES), key=len)


def _pages(block: Block, layout: CardLayout, paper: Paper, scale: float) -> list[Page]:
    frame = page_frame(paper, layout)
    columns = 2 if frame.width >= _WIDE else 1
    step = (frame.width + _COLUMN_GAP) / columns
    width = step - _COLUMN_GAP
    title = TextBlock(f"{layout.sheets.movements}: {block.for_athlete.name}", size=20, width=frame.width, face="bold")
    groups: list[list[Drawable]] = []
    for part, word in layout.parts.items():
        entries = [_entry(used, layout, width, scale) for used in used_movements(block) if used.item.part == part]
        if part == "test" or not entries:
            continue
        groups.append([SectionHeading(word, width), entries[0]])
        groups += [[entry] for entry in entries[1:]]
    lefts = [frame.x + place * step for place in range(columns)]
    return flow(groups, frame, title=title, lefts=lefts)


def used_movements(block: Block) -> list[_Used]:
    """In the order of their first session."""
    found: dict[str, _Used] = {}
    for week in block.weeks:
        for session in week.sessions:
            for item in session.items:
                if item.sets and item.part != "test":
                    used = found.setdefault(item.movement, _Used(item))
                    if week.number not in used.weeks:
                        used.weeks.append(week.number)
    return list(found.values())


def ranges(numbers: list[int]) -> str:
    """``1–3, 5``"""
    runs: list[list[int]] = []
    for number in sorted(numbers):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(f"{run[0]}–{run[-1]}" if len(run) > 1 else str(run[0]) for run in runs)
