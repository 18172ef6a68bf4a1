"""The overview says what the block says: gap, qualities, weeks, charts, proof, cautions."""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from planner.cards.overview import overview_pages
from planner.cards.overview_text import _in_pieces
from planner.cards.paper import paper_of
from planner.domain.block import Proof

from . import invented_block
from .invented_block import block, gap, layout
from .pictures import demo_block
from .reading import cards

LAYOUT = layout()
FREE = 1 / 6  # of a page's height, the most that is left free at its foot


def overview(paper: str = "a4", edited: bool = False, **more: object) -> str:
    """The text of the overview's pages."""
    read = cards(block(**more), LAYOUT, paper, sheets=("overview",), edited=edited)  # type: ignore[arg-type]
    return "\n".join(page.extract_text() for page in read.reader.pages)


def test_gap_in_figures_with_errors_and_as_shares() -> None:
    text = overview()
    for expected in ("1,766 ± 46", "1,885 ± 44", "119 ± 19", "52.0 ± 2.8", "12.0 ± 1.2", "2.63 ± 0.07", "0.18 ± 0.03"):
        assert expected in text, expected
    assert "+6.7 %" in text and "+23.1 %" in text  # 119 / 1766 and 12 / 52


def test_inches_where_the_athlete_reads_inches() -> None:
    text = overview(length_unit="in")
    assert "Rise, in" in text and "20.5 ± 1.1" in text  # 52 cm / 2.54


def test_the_estimates_sentences_and_assumptions_are_printed() -> None:
    told = gap().model_copy(update={"story": ("It takes < 119 N & more.",), "notes": ("no tip-toe reach: assumed",)})
    text = overview(gap=told)
    assert "It takes < 119 N & more." in text and "No tip-toe reach: assumed" in text


def test_every_session_is_in_the_calendar() -> None:
    text = overview()
    made = block()
    for week in made.weeks:
        for session in week.sessions:
            assert session.date.isoformat() in text
    assert "Speed and squat" in text and "Bar beside a session: hard day." in text


def test_qualities_tested_and_untested() -> None:
    text = overview()
    assert (
        "Calf strength, left leg / right leg" in text
        and "21 / 26 reps" in text
        and "30 % / 13 %" in text
        and "× 1.22" in text
    )
    enough = gap().qualities[0].model_copy(update={"deficit": -0.02})
    assert "enough" in overview(gap=gap().model_copy(update={"qualities": (enough,)})) and "enough" not in text
    much = gap().qualities[0].model_copy(update={"deficit": 0.62})
    assert "62 %" in overview(gap=gap().model_copy(update={"qualities": (much,)}))
    assert "untested" in text and "one-leg squat, five repetitions" in text


def test_what_hangs_on_a_wall_tells_no_history_unless_asked_and_pain_all_the_same() -> None:
    made = demo_block()
    pain = "Pain when planned, knee: 2 of 10; it is loaded less, ask before each set."
    made = made.model_copy(update={"cautions": (*made.cautions, pain)})
    usual, asked = (
        "\n".join(page.extract_text() for page in cards(made, LAYOUT, "a4", history=history).reader.pages)
        for history in (False, True)
    )
    assert "History" in asked and "stiff after tournaments" in asked
    assert "History" not in usual and "stiff after tournaments" not in usual
    assert pain[:12] in usual and "Stop a movement that hurts" in usual


@pytest.mark.parametrize(
    ("have", "said"),
    [(0.0, "0 N"), (-0.25, "-0.25 N"), (9.99, "9.99 N"), (10.25, "10.2 N"), (99.5, "99.5 N"), (100.5, "100 N")],
)
def test_a_figure_has_as_many_digits_as_tell(have: float, said: str) -> None:
    line = gap().qualities[0].model_copy(update={"have": have, "unit": "N"})
    assert said in overview(weeks=1, gap=gap().model_copy(update={"qualities": (line,)})).split("\n")


def test_charts_have_units_and_every_currency() -> None:
    text = overview()
    for title in ("Maximal strength", "All contacts", "Contacts: high", "Sprints", "Achilles and ankle: stress"):
        assert title in text
    for unit in ("sets a week", "contacts a week", "efforts a week", "points a week"):
        assert unit in text


@pytest.mark.parametrize(
    ("status", "scope", "sentence"),
    [
        ("optimal", "library", LAYOUT.overview.proved),
        ("optimal", "shortlist", LAYOUT.overview.not_proved),
        ("feasible", "library", LAYOUT.overview.not_proved),
    ],
)
def test_nothing_is_called_proved_that_is_not(status: str, scope: str, sentence: str) -> None:
    text = overview(proof=Proof(status=status, scope=scope, stages=())).replace("\n", " ")  # type: ignore[arg-type]
    assert sentence in text
    others = {LAYOUT.overview.proved, LAYOUT.overview.not_proved} - {sentence}
    assert not any(other in text for other in others)


def test_of_an_edited_block_nothing_is_said_to_hold() -> None:
    text = overview(edited=True, shortfalls=()).replace("\n", " ")
    words = LAYOUT.overview
    assert words.edited in text
    assert not any(sentence in text for sentence in (words.proved, words.not_proved, words.all_met))


def test_sentences_stay_together_up_to_150_points() -> None:
    pieces = _in_pieces([SimpleNamespace(height=height) for height in (75, 75, 0.5, 200)])  # type: ignore[misc]
    assert [piece.height for piece in pieces] == [155.0, 3.0, 202.5], "with 2.5 below each"


def test_a_caution_of_the_estimate_is_not_said_twice() -> None:
    made = block()
    again = f"{made.cautions[0].partition('. ')[0].rstrip('.')}. In other words after that."
    told = gap().model_copy(update={"notes": (again, "no reach on tip-toe")})
    text = overview(gap=told)
    assert "In other words" not in text and "No reach on tip-toe" in text
    assert "In other words" in overview(gap=told, cautions=())


def test_sessions_are_named_as_the_template_names_them() -> None:
    made = block(weeks=1)
    sessions = tuple(
        one.model_copy(update={"focus": "qq-zz", "title": "Speed & jumps"}) for one in made.weeks[0].sessions
    )
    made = made.model_copy(update={"weeks": (made.weeks[0].model_copy(update={"sessions": sessions}),)})
    text = cards(made, LAYOUT, "a4", sheets=("overview",)).reader.pages[0].extract_text()
    assert text.count("Speed & jumps") == len(sessions) and "zz" not in text


def test_shortfalls_and_cautions() -> None:
    text = overview("half-letter").replace("\n", " ")
    made = block()
    for sentence in (*made.cautions, made.shortfalls[0].sentence):
        assert sentence in text
    assert LAYOUT.overview.all_met in overview(shortfalls=()).replace("\n", " ")


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("rows", [1, 4, 7, 10])
def test_the_overview_of_eight_weeks_takes_two_pages_however_much_was_tested(rows: int, paper: str) -> None:
    one = gap().qualities[0]
    lines = tuple(one.model_copy(update={"unit": f"u{row}"}) for row in range(rows))
    told = gap().model_copy(update={"qualities": lines, "story": ("A sentence of the usual length. " * 18,)})
    assert len(cards(block(gap=told), LAYOUT, paper, sheets=("overview",)).pages) == 2


@pytest.mark.parametrize(
    ("weeks", "paper"), [(1, "a4"), (4, "half-letter"), (16, "a4"), (16, "half-letter"), (40, "a5")]
)
def test_blocks_of_other_lengths(weeks: int, paper: str) -> None:
    assert f"{weeks} weeks from 2026-01-05" in overview(paper, weeks=weeks)


def test_weeks_of_many_sessions_with_long_names_go_on_in_the_next_grid() -> None:
    """Twelve such weeks are higher than a half-letter page."""
    names = {"title": "Speed, then the most intense jumps on fresh legs"}
    weeks = tuple(
        invented_block.week(w, [invented_block.session(w, number, [], **names) for number in range(1, 6)])
        for w in range(1, 14)
    )
    pages = cards(block().model_copy(update={"weeks": weeks}), LAYOUT, "half-letter", sheets=("overview",)).pages
    told = [line for page in pages for line in page]
    assert [number for number in range(1, 14) if f"Week {number}" in told] == list(range(1, 14))


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("weeks", [4, 6, 8])
def test_the_first_page_is_full_also_where_the_weeks_do_not_fit_on_it(paper: str, weeks: int) -> None:
    first = overview_pages(block(weeks=weeks), LAYOUT, paper_of(paper), edited=False)[0]
    assert 0 <= first.room <= FREE * first.frame.height
