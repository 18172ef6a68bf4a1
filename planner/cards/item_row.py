"""One item of a session as a row: what and how on the left, how much on the right, and boxes for what was done."""

from __future__ import annotations

from reportlab.pdfgen.canvas import Canvas

from planner.cards import fonts, marks
from planner.cards.approach_checks import ApproachChecks
from planner.cards.card_text import Run, TextBlock, Unbroken, draw_line
from planner.cards.grid import Grid
from planner.cards.marks import Drawable, height_of
from planner.domain.block import AthleteLine, Item
from planner.domain.card_layout import CardLayout
from planner.prescription.item_words import ItemWords, prescribe

_LEFT_SHARE, _RIGHT_SHARE = 0.545, 0.435
_WIDEST_BOX, _NARROWEST_BOX, _BOX_GAP = 34.0, 22.0, 3.0  # points: 12 mm holds "82.5" in pencil, 8 mm "82"
_NAME, _DOSE, _SMALL = 11.5, 16.0, 9.2
_MOST_LINES = 5.5  # of a text next to the boxes: five whole ones


class ItemRow:
    """``number`` is the item's place in the session; ``ramp`` is the text of its lighter sets, if it has any.

    ``checks``: add what the coach notes about the approach jumps.
    """

    def __init__(
        self,
        item: Item,
        number: int,
        athlete: AthleteLine,
        layout: CardLayout,
        grid: Grid,
        *,
        ramp: str = "",
        checks: bool = False,
    ) -> None:
        self.item, self.number, self.grid = item, number, grid
        self._words = layout.words
        self._said: ItemWords | None = prescribe(item, athlete, layout) if item.sets else None
        self._blank_fits = self._said is None or self._blank_beside(self._said, grid.body * _RIGHT_SHARE)
        self._box_width = self._width_of_boxes(grid.body * _RIGHT_SHARE)
        # Next to the boxes a long text makes a tall narrow column: take whichever way is lower.
        ways = [_texts(item, self._said, layout, grid, ramp, spread=spread) for spread in (False, True)]
        self._left, below = min(ways, key=lambda way: self._measure(way[0]) + height_of(way[1]))
        self._below: list[Drawable] = [*below]
        if checks:
            self._below.append(ApproachChecks(athlete, layout, grid))
        self._inner_height = self._measure(self._left)
        self.height = self._inner_height + height_of(self._below) + grid.density.row_space * grid.scale
        self.first_baseline = (3 + (_NAME if self._said else _SMALL)) * grid.scale

    def draw(self, canvas: Canvas, x: float, top: float) -> None:
        scale = self.grid.scale
        top -= 3 * scale
        baseline = top + 3 * scale - self.first_baseline
        draw_line(canvas, x - 5, baseline, str(self.number), size=_SMALL * scale, align="right")
        y = top
        for block in self._left:
            block.draw(canvas, x, y)
            y -= block.height
        if self._said:
            self._draw_amount(canvas, self._said, x, top)
            self._draw_boxes(canvas, x, top - self._inner_height + self.grid.box_height)
        y = top - self._inner_height
        for below in self._below:
            below.draw(canvas, x, y)
            y -= below.height

    def _blank_beside(self, said: ItemWords, column: float) -> bool:
        """Whether the blank for a load to find fits on the line of sets and reps."""
        scale = self.grid.scale
        dose = fonts.width_of(said.dose, "bold", _DOSE * scale) + 10
        small: list[Run] = [("semibold", said.side), ("regular", said.load_to_find), ("regular", said.load)]
        return dose + sum(fonts.width_of(text, face, _SMALL * scale) for face, text in small) + 40 <= column

    def _right_x(self, x: float) -> float:
        return x + self.grid.body * (1 - _RIGHT_SHARE)

    def _dose_height(self) -> float:
        said = self._said
        built = 0.0
        if said and (said.built or (said.load_to_find and not self._blank_fits)):
            built = _SMALL * (1.5 if said.load_to_find else 1.15)
        return (_NAME + 4.5 + built) * self.grid.scale

    def _boxes(self) -> int:
        count = self._said.boxes if self._said else 0
        return count if count <= self.grid.boxes_up_to else 0

    def _width_of_boxes(self, column: float) -> float:
        """Boxes go under the sets and reps, narrower if there are many, or else on their own line."""
        count = max(4, self._boxes())
        width = min(_WIDEST_BOX, (column + _BOX_GAP) / count - _BOX_GAP)
        self._boxes_fit_right = width >= _NARROWEST_BOX
        return width if self._boxes_fit_right else min(_WIDEST_BOX, (self.grid.body + _BOX_GAP) / count - _BOX_GAP)

    def _measure(self, blocks: list[TextBlock]) -> float:
        """The height down to the lower edge of the boxes, with these texts next to them."""
        left = height_of(blocks)
        if not self._said:
            return left
        right = self._dose_height() + 2.5
        if self._boxes() and self._boxes_fit_right:
            return max(left, right + self.grid.box_height)
        return max(left + 4, right) + self.grid.box_height

    def _draw_amount(self, canvas: Canvas, said: ItemWords, x: float, top: float) -> None:
        """Sets and reps at the left edge of the column and the load at its right edge, both large."""
        scale, left, right = self.grid.scale, self._right_x(x), x + self.grid.body
        baseline = top - _NAME * scale
        loads = [] if said.load_to_find or not said.load else [_load_run(said.load)]
        dose = fonts.width_of(said.dose, "bold", _DOSE * scale)
        load = sum(fonts.width_of(said.load, face, size * scale) for face, size in loads)
        inline = fonts.width_of(said.side, "semibold", _SMALL * scale) + 4 if said.side else 0.0
        lines = [said.side] if dose + inline + load + 5 <= right - left else said.side.split(" ", 1)
        side_size = _SMALL if len(lines) == 1 else _SMALL * 0.85
        side = max(fonts.width_of(line, "semibold", side_size * scale) for line in lines) + 4 if said.side else 0.0
        # What still does not fit shrinks as a whole, so that the figures keep their proportions.
        squeeze = min(1.0, (right - left - 5 - side) / (dose + load))
        dose = draw_line(canvas, left, baseline, said.dose, size=_DOSE * scale * squeeze, face="bold")
        for place, line in enumerate(reversed(lines)):
            y = baseline + place * side_size * scale * 0.9
            draw_line(canvas, left + dose + 4, y, line, size=side_size * scale, face="semibold")
        for face, size in loads:
            draw_line(canvas, right, baseline, said.load, size=size * scale * squeeze, face=face, align="right")
        if said.load_to_find:
            self._draw_blank_load(canvas, said, right, baseline - (0.0 if self._blank_fits else _SMALL * 1.6 * scale))
        if said.built:
            below, size = baseline - _SMALL * 1.25 * scale, _SMALL * scale
            width = x + self.grid.body - left
            draw_line(canvas, left + width, below, said.built, size=size, face="semibold", align="right", at_most=width)

    def _draw_blank_load(self, canvas: Canvas, said: ItemWords, right: float, baseline: float) -> None:
        """A line to write the load that the athlete finds."""
        size = _SMALL * self.grid.scale
        if said.load:
            right -= draw_line(canvas, right, baseline, said.load, size=size, align="right") + 3
        marks.rule(canvas, right - 30, baseline - 1, 30, marks.HAIR)
        draw_line(canvas, right - 32, baseline, said.load_to_find, size=size, align="right")

    def _draw_boxes(self, canvas: Canvas, x: float, top: float) -> None:
        count, height, right = self._boxes(), self.grid.box_height, x + self.grid.body
        if count == 0:
            marks.box(canvas, x, top - height, self.grid.body, height)
            return
        width, line = self._box_width, count * (self._box_width + _BOX_GAP) - _BOX_GAP
        start = self._right_x(x) if self._boxes_fit_right else right - line
        for place in range(count):
            left = start + place * (width + _BOX_GAP)
            marks.box(canvas, left, top - height, width, height)
            draw_line(canvas, left + 2, top - 6.2, str(place + 1), size=5.5)


def _load_run(load: str) -> tuple[fonts.Face, float]:
    """A weight is as large as the sets and reps; a box height is not lifted, so it is smaller."""
    return ("bold", _DOSE) if load[0].isdigit() else ("semibold", _NAME)


def _texts(
    item: Item, said: ItemWords | None, layout: CardLayout, grid: Grid, ramp: str, *, spread: bool
) -> tuple[list[TextBlock], list[TextBlock]]:
    """The texts next to the boxes and those below: name, effort and rest, one cue, then what only some items have.

    ``spread``: what follows the cue goes below the boxes, over the whole width.
    """
    small = _SMALL * grid.scale
    if said is None:
        return [TextBlock(_not_this_week(item, layout), size=small, width=grid.body)], []
    width = grid.body * _LEFT_SHARE
    name = TextBlock(item.name, size=_NAME * grid.scale, width=width, face="bold", leading=_NAME * grid.scale * 1.1)
    left, below = [name], []
    lines = _lines(item, said, layout, ramp)
    beside = min(len(lines), 1 + bool(item.cues))
    if grid.density.run_on:
        kept = beside if spread else 1
        lines = [*lines[:kept], *filter(None, [_run_on(lines[kept:])])]
    for place, line in enumerate(lines):
        block = TextBlock(line, size=small, width=width)
        if block.height < _MOST_LINES * small * 1.2 and not (spread and place >= beside):
            left.append(block)
        else:
            below.append(TextBlock(line, size=small, width=grid.body))
    return left, below


def _lines(item: Item, said: ItemWords, layout: CardLayout, ramp: str) -> list[list[Run]]:
    words = layout.words
    lines: list[list[Run]] = [
        [("bold", _sentence(said.weaker))],
        _how(said),
        [("regular", cue) for cue in item.cues[:1]],
        [("regular", _sentence(said.note))],
        _ramp(ramp, layout) if ramp else [],
    ]
    if item.cautions:
        lines.append([("bold", words.caution), *(("semibold", _stopped(caution)) for caution in item.cautions)])
    return [line for line in lines if any(text for _, text in line)]


def _ramp(ramp: str, layout: CardLayout) -> list[Run]:
    """The ramp's heading and steps; each step stays on one line with its plates."""
    head = layout.words.ramp_plates if "(" in ramp else layout.words.ramp
    steps = ramp.split(" · ")
    ended = [*(f"{step} ·" for step in steps[:-1]), steps[-1]]
    return [("semibold", f"{head}:"), *(("regular", Unbroken(step) if "(" in step else step) for step in ended)]


def _run_on(lines: list[list[Run]]) -> list[Run]:
    """The lines one after another, with a dot between them."""
    dot: Run = ("regular", "·")
    return [run for line in lines for run in (dot, *line)][1:]


def _sentence(note: str) -> str:
    return note[:1].upper() + note[1:]


def _stopped(caution: str) -> str:
    """With a full stop, because another caution may follow."""
    return caution if caution.endswith((".", "!", "?")) else f"{caution}."


def _not_this_week(item: Item, layout: CardLayout) -> list[Run]:
    said, reason = layout.words.not_this_week, item.note or ""
    if not reason.startswith(said):  # a reason may already open with these words
        reason = f"{said}: {reason}" if reason else said
    return [("regular", item.name), ("semibold", f"· {reason}")]


def _how(said: ItemWords) -> list[Run]:
    said_in_order: list[Run] = [("semibold", said.effort)] if said.effort else []
    said_in_order += [("regular", detail) for detail in said.details]
    last = len(said_in_order) - 1
    # The dot stays with the text before it, so that no line opens with a dot.
    return [(face, Unbroken(text if at == last else f"{text} ·")) for at, (face, text) in enumerate(said_in_order)]
