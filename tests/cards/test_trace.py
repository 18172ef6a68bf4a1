"""The page of a force trace: no peak is lost, figures are round, sentences stay on the page, names can be drawn."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest

from planner.cards.force_trace import MOST_POINTS, _step, _thinned, draw_trace
from planner.domain.findings import UserError

from .looks import Trace, jump
from .reading import read


def test_a_long_curve_keeps_the_lowest_and_highest_point_of_every_stretch_in_order() -> None:
    """2001 points a stretch of three: 667 stretches of two points each."""
    values = [100.0] * 2001
    values[700], values[1301], values[2000] = 2500.0, -3.0, 7.0
    kept = _thinned(values)
    assert len(kept) <= MOST_POINTS
    assert {(700, 2500.0), (1301, -3.0), (2000, 7.0)} <= set(kept)
    assert [place for place, _ in kept] == sorted({place for place, _ in kept})
    assert all(values[place] == force for place, force in kept)
    places = [place for place, _ in kept]
    assert places[0] == 0 and max(b - a for a, b in pairwise(places)) <= 3


@pytest.mark.parametrize("count", [1, MOST_POINTS])
def test_a_curve_that_can_be_seen_whole_is_drawn_whole(count: int) -> None:
    assert _thinned([5.0] * count) == [(place, 5.0) for place in range(count)]


@pytest.mark.parametrize(
    ("about", "step"),
    [(0.0, 1e-6), (0.09, 0.1), (1.0, 1.0), (1.1, 2.0), (4.9, 5.0), (5.1, 10.0), (480, 500)],
)
def test_steps_of_an_axis_are_round_and_no_smaller_than_asked(about: float, step: float) -> None:
    assert _step(about) == pytest.approx(step)


@pytest.mark.parametrize(
    ("force_N", "figures"),
    [
        ([745.0, 2400.0], ["0", "500", "1,000", "1,500", "2,000", "2,500"]),
        ([745.0, 2600.0], ["0", "1,000", "2,000", "3,000"]),
        ([], ["0", "0", "0", "1", "1", "1"]),  # a record without a sample: up to 1 N by 0.2
    ],
)
def test_the_axis_of_force_has_about_five_round_figures_up_to_the_highest(
    force_N: list[float], figures: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(Trace, "trace_N", force_N)
    [page] = read(draw_trace([jump()], titles=["jump.txt"], lines=[[]])).pages
    assert page[1 : page.index("vertical force, N")] == figures


def test_the_axis_of_time_is_that_of_the_record(monkeypatch: pytest.MonkeyPatch) -> None:
    """Two seconds from the tenth on: a figure each half second."""
    monkeypatch.setattr(Trace, "trace_N", [745.0] * 1001)
    late = replace(jump(), trace_start_s=10.0)
    [page] = read(draw_trace([late], titles=["jump.txt"], lines=[[]])).pages
    assert page[page.index("vertical force, N") + 1 : page.index("time, s")] == ["10", "10.5", "11", "11.5", "12"]


def test_sentences_that_do_not_fit_the_page_are_left_out_whole() -> None:
    """159 points are left below the plot; a sentence takes 15.5, of which 4 are white."""
    sentences = [f"Sentence {number} of many." for number in range(60)]
    [page] = read(draw_trace([jump()], titles=["jump.txt"], lines=[sentences], paper="a5")).pages
    said = [line for line in page if line.startswith("Sentence")]
    assert said == sentences[:10]


def test_each_jump_has_its_page_and_the_title_names_each_record_once() -> None:
    drawn = read(draw_trace([jump()] * 3, titles=["a.txt", "a.txt", "b.txt"], lines=[["One."], ["Two."], ["Three."]]))
    assert [page[0] for page in drawn.pages] == ["a.txt", "a.txt", "b.txt"]
    assert drawn.reader.metadata is not None and drawn.reader.metadata.title == "a.txt, b.txt"
    sides = drawn.reader.pages[0].mediabox
    assert float(sides.width) < float(sides.height)


def test_a_name_that_the_font_lacks_is_refused() -> None:
    with pytest.raises(UserError) as refused:
        draw_trace([jump()], titles=["跳.txt"], lines=[[]])
    [finding] = refused.value.findings
    assert finding.code == "no-letter" and "跳" in finding.message
