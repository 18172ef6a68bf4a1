"""Pages as small grey pictures, kept in ``pictures/``: what a coach sees, compared with what was seen before.

A pixel is the mean grey of a square of the page. A demo's whole PDF is kept coarse (SQUARE_pt): a line, a box or a word
that moves or is missing shows. Small PDFs of one part each (looks.py) are kept so fine that a move of one point shows.
Another release of the renderer smooths edges its own way; in means of squares that hardly shows.
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
LOOKS = FOLDER / "looks"
README = FOLDER / "readme"  # pages that README shows, large enough to be read
README_PAGES = {"overview": 1, "card": 6}  # page of the demo's PDF, from 1
DEMO, PAPER = "in-season", "a4"
SQUARE_pt, FINE_pt = 3.0, 0.5
README_SQUARE_pt = FINE_pt  # so that its means are those of the kept pages
# A hair line (0.35 pt) that moves by one point leaves its square. With pixels that fine, releases 4.30 and 5.15 of the
# renderer draw the same to one grey of 255; with pixels twice the size they differ by 85.
LOOK_SQUARE_pt, LOOK_FINE_pt = 1.25, 0.25
GREYS = 16  # of a kept picture, so that it stays small
# A thin line (0.6 pt) through a square of the demo darkens it by 51 of 255, a hair line by 30, and by 71 in a look;
# rounding to GREYS takes 9 at most.
TOLERANCE = 24


@cache
def demo_block() -> Block:
    """The kept demo as the solver would hand it over; nothing is solved."""
    gap, problem = estimate_and_problem(inputs(DEMO, folder=older_folder()))
    stage = Stage(name="bands", status="optimal", objective=0, bound=0, unit="points")
    proof = Proof(status="optimal", scope="library", stages=(stage,))
    solution = Solution(problem, kept_values(DEMO), (), proof, 0.0)
    return make_block(solution, gap.gap, References(SOMEWHERE, SOMEWHERE, SOMEWHERE, SOMEWHERE))


def drawn() -> list[np.ndarray]:
    """Every page of the demo's PDF as rows of mean greys, 0 black to 255 white."""
    return greys(draw_cards(demo_block(), paper=PAPER, layout=layout()), SQUARE_pt, FINE_pt)


def for_readme() -> dict[str, np.ndarray]:
    """The pages that README shows, by name."""
    pages = greys(draw_cards(demo_block(), paper=PAPER, layout=layout()), README_SQUARE_pt, FINE_pt)
    return {name: pages[number - 1] for name, number in README_PAGES.items()}


def look(data: bytes) -> list[np.ndarray]:
    """The pages of one small PDF, fine enough to be kept in LOOKS."""
    return greys(data, LOOK_SQUARE_pt, LOOK_FINE_pt)


def greys(data: bytes, square_pt: float, fine_pt: float) -> list[np.ndarray]:
    side = round(square_pt / fine_pt)
    return [_coarse(ink(data, page, fine_pt)[0], side) for page in range(len(read(data).pages))]


def kept(folder: Path = FOLDER, name: str = "") -> list[np.ndarray]:
    paths = sorted(folder.glob(f"{name}[0-9][0-9].png"))
    return [np.asarray(Image.open(path).convert("L"), dtype=float) for path in paths]


def differences(now: list[np.ndarray], before: list[np.ndarray], square_pt: float = SQUARE_pt) -> list[str]:
    """Each page that looks different, with the rectangle around the difference; empty if all look alike."""
    if len(now) != len(before):
        return [f"{len(now)} pages, {len(before)} kept"]
    pairs = enumerate(zip(now, before, strict=True), start=1)
    return [found for at, pages in pairs if (found := _of_page(at, *pages, square_pt))]


def save(pages: list[np.ndarray], folder: Path, name: str = "") -> None:
    """Write the pages as pictures named by their number."""
    for number, page in enumerate(pages, start=1):
        save_one(page, folder / f"{name}{number:02}.png")


def save_one(page: np.ndarray, path: Path) -> None:
    path.parent.mkdir(exist_ok=True)
    steps = np.round(page / 255 * (GREYS - 1)).astype(np.uint8)
    picture = Image.fromarray(steps, "P")
    picture.putpalette([round(step * 255 / (GREYS - 1)) for step in range(GREYS) for _ in "rgb"])
    picture.save(path, optimize=True, bits=4)


def shrunken(name: str) -> np.ndarray:
    """A picture of README as coarse as the demo's kept pages."""
    pixels = np.asarray(Image.open(README / f"{name}.png").convert("L"), dtype=float)
    return _coarse(pixels, round(SQUARE_pt / README_SQUARE_pt))


def _of_page(number: int, now: np.ndarray, before: np.ndarray, square_pt: float) -> str:
    if now.shape != before.shape:
        return f"page {number}: another size"
    rows, columns = np.nonzero(np.abs(now - before) > TOLERANCE)
    if not len(rows):
        return ""
    across, down = (f"{one.min() * square_pt:g} to {(one.max() + 1) * square_pt:g} pt" for one in (columns, rows))
    return f"page {number}: {len(rows)} squares differ, {across} from the left, {down} from the top"


def _coarse(pixels: np.ndarray, side: int) -> np.ndarray:
    """Means over squares of ``side`` pixels; the remainder at the right and lower edge is margin."""
    rows, columns = (length // side for length in pixels.shape)
    return pixels[: rows * side, : columns * side].reshape(rows, side, columns, side).mean(axis=(1, 3))
