"""Drawing a whole block against bare reportlab pages of the same size and font, as a ratio in one run.

A bare page is the least that reportlab can do: one line of text. Fonts are registered before either is timed, and the
first drawing is left out; what a drawing keeps for itself of broken lines is forgotten before the next.
Run: python -m tests.benchmarks.cards_against_bare_pages [BLOCK ...]; without a block, the invented one of eight weeks.
"""

from __future__ import annotations

import statistics
import sys
import time
from collections.abc import Callable
from io import BytesIO

from pypdf import PdfReader
from reportlab.pdfgen.canvas import Canvas

from planner.cards import card_text, fonts
from planner.cards.paper import PAPERS
from planner.cards.pdf_file import draw_cards
from planner.domain.block import Block
from planner.files.load import load_block
from planner.prescription import plain
from tests.cards.invented_block import block, layout

REPEATS = 5
LAYOUT = layout()


def bare_pages(sizes: list[tuple[float, float]]) -> bytes:
    buffer = BytesIO()
    canvas = Canvas(buffer, invariant=1, pageCompression=1)
    for size in sizes:
        canvas.setPageSize(size)
        canvas.setFont(fonts.register()["regular"], 12)
        canvas.drawString(40, 40, "page")
        canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def median_s(work: Callable[[], object]) -> float:
    work()
    times = []
    for _ in range(REPEATS):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return statistics.median(times)


def drawn_afresh(made: Block, paper: str) -> bytes:
    """As the command does it, which runs once: nothing is left of an earlier drawing but the fonts."""
    card_text._wrapped.cache_clear()
    plain.clean.cache_clear()
    return draw_cards(made, paper=paper, layout=LAYOUT)


def main(paths: list[str]) -> None:
    blocks: list[tuple[str, Block]] = [(path, load_block(path).require()) for path in paths]
    for name, made in blocks or [("invented, 8 weeks", block())]:
        for paper in PAPERS:
            drawn = draw_cards(made, paper=paper, layout=LAYOUT)
            sizes = [(float(p.mediabox.width), float(p.mediabox.height)) for p in PdfReader(BytesIO(drawn)).pages]
            ours = median_s(lambda paper=paper, made=made: drawn_afresh(made, paper))
            bare = median_s(lambda sizes=sizes: bare_pages(sizes))
            print(
                f"{name:24s} {paper:12s} {len(sizes):3d} pages in {ours:5.2f} s: {len(sizes) / ours:5.0f} pages/s; "
                f"bare {len(sizes) / bare:5.0f} pages/s; ratio {ours / bare:.0f}",
                flush=True,
            )


if __name__ == "__main__":
    main(sys.argv[1:])
