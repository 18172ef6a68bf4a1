"""A demo's pages as small grey pictures, kept in ``pictures/``: what a coach sees, compared with what was seen before.

A pixel is the mean grey of a square of SQUARE_pt. Small text cannot be read in it, but a line, a box or a word that
moves or is missing shows. Another release of the renderer smooths edges its own way; that hardly shows.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import numpy as np
from PIL import Image

from planner.cards.pdf_file import draw_cards
from planner.domain.block import Block, Proof, Stage
from planner.problem.from_files import estimate_and_problem
from planner.solve.make_block import References, make_block
from planner.solve.stages import Solution
from tests.rules.kept_blocks import kept_values
from tests.solve.demos import SOMEWHERE, inputs
from tests.upgrade.older_folder import older_folder

from .invented_block import layout
from .reading import ink, read

FOLDER = Path(__file__).with_name("pictures")
DEMO, PAPER = "in-season", "a4"
SQUARE_pt, FINE_pt = 3.0, 0.5
GREYS = 16  # of a kept picture, so that it stays small
# A thin line (0.6 pt) through a square darkens it by 51 of 255, a hair line by 30; rounding to GREYS takes 9 at most.
TOLERANCE = 24


@cache
def demo_block() -> Block:
    """The kept demo as the solver would hand it over; nothing is solved."""
    gap, problem = estimate_and_problem(inputs(DEMO, folder=older_folder()))
    stage = Stage(name="bands", status="optimal", objective=0, bound=0, unit="priced shortfall")
    proof = Proof(status="optimal", scope="library", stages=(stage,))
    solution = Solution(problem, kept_values(DEMO), (), proof, 0.0)
    return make_block(solution, gap.gap, References(SOMEWHERE, SOMEWHERE, SOMEWHERE, SOMEWHERE))


def drawn() -> list[np.ndarray]:
    """Every page of the demo's PDF as rows of mean greys, 0 black to 255 white."""
    data = draw_cards(demo_block(), paper=PAPER, layout=layout())
    return [_coarse(ink(data, page, FINE_pt)[0]) for page in range(len(read(data).pages))]


def kept() -> list[np.ndarray]:
    return [np.asarray(Image.open(path).convert("L"), dtype=float) for path in sorted(FOLDER.glob("*.png"))]


def differences(now: list[np.ndarray], before: list[np.ndarray]) -> list[str]:
    """Each page that looks different, with the rectangle around the difference; empty if all look alike."""
    if len(now) != len(before):
        return [f"{len(now)} pages, {len(before)} kept"]
    return [found for at, pages in enumerate(zip(now, before, strict=True), start=1) if (found := _of_page(at, *pages))]


def save(pages: list[np.ndarray], folder: Path) -> None:
    """Write the pages as pictures named by their number."""
    folder.mkdir(exist_ok=True)
    for number, page in enumerate(pages, start=1):
        steps = np.round(page / 255 * (GREYS - 1)).astype(np.uint8)
        picture = Image.fromarray(steps, "P")
        picture.putpalette([round(step * 255 / (GREYS - 1)) for step in range(GREYS) for _ in "rgb"])
        picture.save(folder / f"{number:02}.png", optimize=True, bits=4)


def _of_page(number: int, now: np.ndarray, before: np.ndarray) -> str:
    if now.shape != before.shape:
        return f"page {number}: another size"
    rows, columns = np.nonzero(np.abs(now - before) > TOLERANCE)
    if not len(rows):
        return ""
    across, down = (f"{one.min() * SQUARE_pt:g} to {(one.max() + 1) * SQUARE_pt:g} pt" for one in (columns, rows))
    return f"page {number}: {len(rows)} squares differ, {across} from the left, {down} from the top"


def _coarse(pixels: np.ndarray) -> np.ndarray:
    """Means over squares; the remainder at the right and lower edge is margin."""
    side = round(SQUARE_pt / FINE_pt)
    rows, columns = (length // side for length in pixels.shape)
    return pixels[: rows * side, : columns * side].reshape(rows, side, columns, side).mean(axis=(1, 3))
