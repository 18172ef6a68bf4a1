"""The PDF as a document: sizes, margins, fonts, bookmarks, the same bytes; what it refuses."""

from __future__ import annotations

import datetime
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from reportlab.lib.units import inch, mm

from planner.cards.card_text import _as_drawn
from planner.cards.pdf_file import _on_sheets, draw_cards
from planner.domain.findings import UserError

from .invented_block import block, item, layout, session, week, with_session
from .reading import cards, ink, read

LAYOUT = layout()
SIZE_TOLERANCE_pt = 0.01
CARD = {"a4": (297 * mm, 210 * mm), "letter": (11 * inch, 8.5 * inch), "a5": (148 * mm, 210 * mm)}
CARD["half-letter"] = (5.5 * inch, 8.5 * inch)
PAGE = CARD | {"a4": (210 * mm, 297 * mm), "letter": (8.5 * inch, 11 * inch)}
CARDS_A_SHEET = {"a4": 2, "letter": 2, "a5": 1, "half-letter": 1}


@pytest.mark.parametrize("paper", CARD)
def test_sizes_of_overview_and_cards(paper: str) -> None:
    made = block(weeks=1)
    whole, week = cards(made, LAYOUT, paper), cards(made, LAYOUT, paper, week=1)
    overview = cards(made, LAYOUT, paper, sheets=("overview",))
    assert 1 <= len(overview.pages) <= (2 if CARDS_A_SHEET[paper] == 2 else 5)
    upright_pages = len(whole.pages) - len(week.pages)
    assert upright_pages > len(overview.pages) + 1, "movements and tests have pages of their own"
    for number, page in enumerate(whole.reader.pages):
        wide, high = PAGE[paper] if number < upright_pages else CARD[paper]
        assert float(page.mediabox.width) == pytest.approx(wide, abs=SIZE_TOLERANCE_pt)
        assert float(page.mediabox.height) == pytest.approx(high, abs=SIZE_TOLERANCE_pt)


def test_eight_weeks_of_four_sessions_are_two_sheets_a_week() -> None:
    made = block()
    assert len(cards(made, LAYOUT, "a4", week=3).pages) == 2
    assert len(cards(made, LAYOUT, "a5", week=3).pages) == 4
    assert len(cards(made, LAYOUT, "a5", week=3, session=2).pages) == 1
    assert len(cards(made, LAYOUT, "a5", session=2).pages) == 8


def test_three_sessions_a_week_leave_no_half_sheet_empty_each_week() -> None:
    calf = [item("calf", "Calf raise", 2, 9)]
    weeks = tuple(week(number, [session(number, at, calf) for at in (1, 2, 3)]) for number in (1, 2, 3, 4))
    reader = cards(with_session(calf).model_copy(update={"weeks": weeks}), LAYOUT, "a4", sheets=("cards",)).reader
    assert len(reader.pages) == 6, "twelve cards, two a sheet"
    assert [str(one.title)[:6] for one in reader.outline if not isinstance(one, list)] == [f"Week {n}" for n in "1234"]


def test_a_unit_and_a_single_letter_stay_with_the_word_they_belong_to() -> None:
    assert _as_drawn("Acceleration, 10 m") == "Acceleration, 10\u00a0m"
    assert _as_drawn("5 at 40 kg (10), 80 % of it") == "5 at 40\u00a0kg (10), 80\u00a0% of it"
    assert _as_drawn("Plan B") == "Plan\u00a0B" and _as_drawn("2 more a side") == "2 more a\u00a0side"
    assert _as_drawn("A skip, 3 × 10 m") == "A\u00a0skip, 3\u00a0×\u00a010\u00a0m"


@pytest.mark.parametrize("paper", CARD)
def test_nothing_lies_outside_the_margins(paper: str) -> None:
    names = "Rear-foot-elevated split squat with the front heel on a wedge of five degrees"
    items = [item("one-leg", names, 9, 8, side="each", load_kg=102.5, cautions=("Mind the plates.",))] * 7
    made = with_session(items, name="Aleksandra-Katarzyna Wiśniewska-Ołdakowska")
    data = draw_cards(made, paper=paper, layout=LAYOUT)
    margin = LAYOUT.measures.margin / 0.0254 * 72
    overview = len(cards(made, LAYOUT, paper).pages) - len(cards(made, LAYOUT, paper, week=1).pages)
    for page in range(len(read(data).pages)):
        pixels, (width, _) = ink(data, page)
        scale = pixels.shape[1] / width
        halves = (
            [(0.0, width)] if page < overview or CARDS_A_SHEET[paper] == 1 else [(0, width / 2), (width / 2, width)]
        )
        edge = int((margin - 1) * scale)  # a point's allowance for the thickness of lines
        assert (pixels[:edge] == 255).sum() >= pixels[:edge].size - edge * 6, "top; the cut line alone may cross"
        assert (pixels[-edge:] == 255).sum() >= pixels[-edge:].size - edge * 6
        for left, right in halves:
            cut = int(2 * scale)
            first, last = int(left * scale) + cut, int(right * scale) - cut
            assert (pixels[:, first : first + edge - cut] == 255).all(), f"{paper} page {page}: left margin"
            assert (pixels[:, last - edge + cut : last] == 255).all(), f"{paper} page {page}: right margin"
        assert (pixels < 128).any()


def test_every_font_is_embedded_and_ours() -> None:
    for page in cards(block(weeks=1), LAYOUT, "a4").reader.pages:
        fonts = page["/Resources"]["/Font"]
        assert len(fonts) >= 1
        for font in fonts.values():
            descriptor = font.get_object()["/FontDescriptor"]
            assert "/FontFile2" in descriptor
            assert "SourceSans" in descriptor["/FontName"]


def test_same_block_same_bytes_also_in_another_process() -> None:
    made = block(weeks=2)
    first = draw_cards(made, paper="a4", layout=LAYOUT)
    assert draw_cards(made, paper="a4", layout=LAYOUT) == first
    program = (
        "import hashlib; from tests.cards.invented_block import block, layout;"
        "from planner.cards.pdf_file import _on_sheets, draw_cards;"
        "print(hashlib.sha256(draw_cards(block(weeks=2), paper='a4', layout=layout())).hexdigest())"
    )
    root = Path(__file__).parents[2]
    digests = {
        subprocess.run(
            [sys.executable, "-c", program],
            cwd=root,
            env={"PYTHONHASHSEED": seed, "PYTHONPATH": str(root), "RL_invariant": "0"},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    }
    assert len(digests) == 1


def test_title_author_language_and_bookmarks() -> None:
    made = block("Ευαγγελία Παπαδοπούλου", weeks=2)
    reader = cards(made, LAYOUT, "a4").reader
    assert reader.metadata is not None
    assert reader.metadata.title == "Jump block: Ευαγγελία Παπαδοπούλου"
    assert reader.metadata.author == "jumpblock"
    assert reader.trailer["/Root"]["/Lang"] == "en"
    outline = reader.outline
    assert [entry.title for entry in outline if not isinstance(entry, list)] == [
        "Jump block", "The movements", "Test day", "Week 1: build the base", "Week 2: build the base"
    ]  # fmt: skip
    sessions = [[entry.title for entry in entries] for entries in outline if isinstance(entries, list)]
    assert [len(titles) for titles in sessions] == [4, 4]
    assert sessions[1][0] == "Session 1: Mon 2026-01-12"
    first_of_week_2 = [entries for entries in outline if isinstance(entries, list)][1][0]
    page = reader.get_destination_page_number(first_of_week_2)
    assert "2026-01-12" in reader.pages[page].extract_text()


def test_a_session_has_its_bookmark_and_lies_on_its_side_after_an_upright_page() -> None:
    made = with_session([item("calf", "Calf raise", 2, 9)])
    reader = cards(made, LAYOUT, "a4", sheets=("tests", "cards")).reader
    assert [float(page.mediabox.width) > float(page.mediabox.height) for page in reader.pages] == [False, True]
    tests, week, [one] = reader.outline
    assert (tests.title, week.title, one.title) == ("Test day", "Week 1: build the base", "Session 1: Mon 2026-01-05")
    assert [reader.get_destination_page_number(at) for at in (tests, week, one)] == [0, 1, 1]


def test_a_session_on_two_cards_has_one_bookmark_and_so_has_its_week() -> None:
    long = [item("calf", f"Calf raise {number}", 2, 9) for number in range(14)]
    made = with_session([])
    sessions = [session(1, at, items) for at, items in ((1, long), (2, long[:1]))]
    two = made.model_copy(update={"weeks": (week(1, sessions),)})
    reader = cards(two, LAYOUT, sheets=("cards",)).reader
    assert len(reader.pages) == 3
    week_1, entries = reader.outline
    assert [str(one.title).split(":")[0] for one in (week_1, *entries)] == ["Week 1", "Session 1", "Session 2"]


def test_the_language_is_the_layouts() -> None:
    reader = cards(block(weeks=1), LAYOUT.model_copy(update={"language": "pt-BR"}), "a4", week=1).reader
    assert reader.trailer["/Root"]["/Lang"] == "pt-BR"


@pytest.mark.parametrize(
    ("which", "code", "said", "hint"),
    [
        ({"week": 9}, "no-week", "the block has no week 9", "its weeks are 1 to 2"),
        ({"week": 2, "session": 5}, "no-session", "week 2 has no session 5", "its sessions are 1 to 3"),
        ({"session": 0}, "no-session", "the block has no session 0", "its sessions are 1 to 4"),
        ({"paper": "foolscap"}, "unknown-paper", "no paper 'foolscap'", "use one of a4, a5, letter, half-letter"),
    ],
)
def test_what_the_block_has_not_is_refused(which: dict[str, object], code: str, said: str, hint: str) -> None:
    """Of two weeks, the second one has three sessions."""
    first, second = block(weeks=2).weeks
    made = block(weeks=2).model_copy(update={"weeks": (first, week(2, list(second.sessions[:3])))})
    with pytest.raises(UserError) as refused:
        draw_cards(made, **({"paper": "a4", "layout": LAYOUT} | which))  # type: ignore[arg-type]
    assert [(one.code, one.message, one.hint) for one in refused.value.findings] == [(code, said, hint)]


def test_cards_since_a_day_have_that_day_and_those_after_it() -> None:
    made = block(weeks=3)
    last = made.weeks[-1].sessions[-1].date
    assert len(cards(made, LAYOUT, since=last).pages) == 1
    with pytest.raises(UserError) as refused:
        cards(made, LAYOUT, since=last + datetime.timedelta(days=1))
    [finding] = refused.value.findings
    assert (finding.code, finding.message) == ("no-session", "the block has no session from 2026-01-25 on")
    assert finding.hint == "the last is on 2026-01-24"


def test_one_page_with_too_long_a_text_among_others_is_refused() -> None:
    items = [item("calf", f"Raise {number}", 2, 9, cues=("Up and down. " * 9,)) for number in range(20)]
    assert len(cards(with_session(items), LAYOUT, sheets=("movements",)).pages) > 1
    items.append(item("calf", "Raise", 2, 9, cues=("Up and down. " * 150,) * 3))
    with pytest.raises(UserError) as refused:
        cards(with_session(items), LAYOUT, sheets=("movements",))
    assert [one.code for one in refused.value.findings] == ["page-text-too-long"]


def test_the_settings_do_not_come_from_the_environment() -> None:
    program = (
        "from planner.cards import fonts; fonts.register(); from reportlab import rl_config as c;"
        "print(c.invariant, c.trustedHosts, c.toColorCanUse)"
    )
    root = Path(__file__).parents[2]
    env = {"PYTHONPATH": str(root), "RL_toColorCanUse": "rl_safe_eval", "RL_invariant": "0"}
    done = subprocess.run(
        [sys.executable, "-c", program], cwd=root, env=env, capture_output=True, text=True, check=True
    )
    assert done.stdout.split() == ["1", "None", "None"]


@pytest.mark.parametrize(
    ("sessions", "sheets"),
    [
        (["a", "bc"], ["a", "bc"]),
        (["a", "bc", "d"], ["ab", "cd"]),
        (["a", "bc", "d", "e"], ["a", "bc", "de"]),
        (["a", "b", "c"], ["ab", "c"]),
        (["abc", "d"], ["ab", "cd"]),
    ],
)
def test_a_session_keeps_to_a_sheet_only_where_that_takes_no_sheet_more(sessions: list[str], sheets: list[str]) -> None:
    """A letter is a card, a word a session; two cards go on a sheet."""
    laid: Any = _on_sheets([list(session) for session in sessions], 2)  # type: ignore[misc]
    assert ["".join(sheet) for sheet in laid] == sheets


def test_the_document_says_what_made_it_and_its_bookmarks_open_on_weeks() -> None:
    """Weeks are closed in the reader's list, so that a long block is short there; sessions hang under them."""
    reader = cards(block(weeks=2), LAYOUT).reader
    assert reader.metadata is not None and reader.metadata.creator == "jumpblock"
    entries = reader.outline
    weeks = [one for one in entries if not isinstance(one, list) and "Week" in str(one.title)]
    assert weeks and all(int(one["/Count"]) < 0 for one in weeks), "a negative count is a closed entry"
