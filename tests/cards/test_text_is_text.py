"""A coach's words are printed as written or refused with their place; none are read as markup."""

from __future__ import annotations

from pathlib import Path

import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import planner.cards
from planner.cards.card_text import clean, undrawable
from planner.cards.pdf_file import draw_cards
from planner.domain.findings import UserError
from planner.files.dump import block_to_yaml
from planner.files.load import load_block, load_file

from .invented_block import block, item, layout, with_session
from .reading import cards
from .test_boxes import words_of

LAYOUT = layout()
SHIPPED = Path(__file__).parents[2] / "templates" / "cards" / "standard.yaml"
FEW = 25  # examples; each draws a card
MARKUP = [
    "knee<hip & hip<knee",
    "x<y and y>z",
    "<b>bold",
    "</para><para>",
    '<img src="/etc/passwd"/>',
    '<a href="javascript:alert(1)">press</a>',
    "<onDraw name='x'/>",
    "&lt;b&gt; &amp; &#65;",
    '<font color="red">red</font>',
]


def written(name: str, **more: object) -> str:
    made = with_session([item("one-leg", name, 3, 8, load_kg=20.0, **more)])
    return " ".join(cards(made, LAYOUT, week=1).pages[0])


@pytest.mark.parametrize("text", MARKUP)
def test_markup_in_names_cues_and_notes_is_printed(text: str) -> None:
    page = written(f"A {text}", cues=(f"B {text}",), cautions=(f"C {text}",), note=f"D {text}")
    for letter in "ABCD":
        assert f"{letter} {text}".replace(" ", "") in page.replace(" ", "")  # a long one may break over lines


@pytest.mark.parametrize("text", MARKUP)
def test_markup_in_the_athletes_name_is_printed_on_card_and_overview(text: str) -> None:
    read = cards(block(text, weeks=1), LAYOUT, "a5")
    for page in (0, -1):  # a long one may break over lines
        assert text.replace(" ", "") in "".join(read.pages[page]).replace(" ", "")
    assert not any(page.get("/Annots") for page in read.reader.pages)


letters = st.characters(categories=["Lu", "Ll", "Nd", "Po", "Sm", "Zs"], max_codepoint=0x17E)


@settings(max_examples=FEW, deadline=None)
@given(st.text(letters, min_size=1, max_size=60))
def test_what_can_be_drawn_is_drawn_whole(text: str) -> None:
    name = clean(text)
    if name and not undrawable(name):
        # Where lines break is up to the layout; every character comes back, in order.
        assert name.replace(" ", "") in written(name).replace(" ", "")


def test_controls_are_left_out_and_white_space_is_one_space() -> None:
    assert clean("squat\x00\x07\twith\r\npause\u00a0x") == "squat with pause x"
    assert "squat with pause" in written("squat\x00\twith\npause")


@pytest.mark.parametrize("name", ["Nguyễn Thị Phương", "Łucja Żółć", "Ευαγγελία", "Екатерина Щербакова", "Đặng ½ ± ≥"])
def test_scripts_that_the_font_covers(name: str) -> None:
    assert undrawable(name) == []
    assert name in " ".join(cards(block(name, weeks=1), LAYOUT, week=1, session=1).pages[0])


def test_letters_and_accents_given_apart_are_put_together() -> None:
    assert clean("Nguye\u0302\u0303n") == "Nguyễn"


@pytest.mark.parametrize("character", ["日", "ع", "א", "😀", "\u202e", "\u200f", "\u200b", "\ufeff", "q\u0301"[1], "■"])
def test_what_cannot_be_drawn_is_refused_before_drawing(character: str) -> None:
    if character == "■":  # the font has this one, although other programs print it for a missing glyph
        assert undrawable(character) == []
        return
    with pytest.raises(UserError) as refused:
        cards(block(f"Ana q{character}", weeks=1), LAYOUT)
    finding = refused.value.findings[0]
    assert finding.code == "no-letter"
    assert finding.message.startswith("athlete name: the card font has no letter or sign for ")
    assert f"U+{ord(character):04X}" in finding.message
    shown = f"'{character}' (U+" in finding.message
    assert shown is (character in "日\u0639\u05d0😀"), (
        "what prints nothing, or joins what is before it, is named and not shown"
    )


def test_all_places_without_a_glyph_are_named_at_once() -> None:
    made = with_session([item("one-leg", "Step 上", 3, 8, cues=("Keep 直",))], name="日本")
    with pytest.raises(UserError) as refused:
        cards(made, LAYOUT, week=1)
    messages = [finding.message for finding in refused.value.findings]
    assert len(messages) == 3
    assert "athlete name" in messages[0] and "movement name (week 1, session 1)" in messages[1]
    assert "cue of 'Step 上'" in messages[2]


def test_a_glyph_finding_names_the_line(tmp_path: Path) -> None:
    """The finding names the block for a coach's words and the layout for the fixed ones."""
    path, styled = tmp_path / "block.yaml", tmp_path / "standard.yaml"
    made = with_session([item("one-leg", "Step-up", 3, 8, cues=("fine", "Keep 直"))])
    path.write_text(block_to_yaml(made), "utf-8")
    styled.write_text(SHIPPED.read_text("utf-8").replace("notes: Notes", "notes: 書"), "utf-8")
    read, layout_read = load_block(path, "block.yaml"), load_file(styled, "standard.yaml")
    with pytest.raises(UserError) as refused:
        draw_cards(
            read.require(), paper="a5", layout=layout_read.require(), source=read, layout_source=layout_read
        )  # fmt: skip
    findings = refused.value.findings
    lines = [path.read_text("utf-8").split("\n"), styled.read_text("utf-8").split("\n")]
    assert [one.path for one in findings] == ["block.yaml", "standard.yaml"]
    assert [sign in lines[at][one.line - 1] for at, (one, sign) in enumerate(zip(findings, "直書", strict=True))] == [
        True
    ] * 2


@pytest.mark.parametrize("paper", ["a4", "half-letter"])
@pytest.mark.parametrize("place", ["cue", "why", "name", "caution", "target", "cautions of the block", "story"])
def test_two_thousand_characters_are_printed_whole_or_refused(place: str, paper: str) -> None:
    """Wherever a long text is, none of its letters runs off the page unnoticed."""
    words = [f"w{number:03}" for number in range(400)]
    text = " ".join(words)
    assert len(text) == 1999
    kept = {"cue": {"cues": (text,)}, "caution": {"cautions": (text,)}, "name": {"cues": (text,) * 3}}.get(place, {})
    made = with_session([item("one-leg", "Step-up", 3, 8, **kept)], **({"why": text} if place == "why" else {}))
    who = made.for_athlete.model_copy(update={"target": text} if place == "target" else {})
    gap = made.gap.model_copy(update={"story": (text,)} if place == "story" else {})
    more = {"cautions": (text,) * 6} if place == "cautions of the block" else {}
    made = made.model_copy(update={"for_athlete": who, "gap": gap} | more)
    try:
        read = cards(made, LAYOUT, paper)
    except UserError as refused:
        assert all(one.code in ("card-text-too-long", "page-text-too-long") for one in refused.findings)
        return
    printed = " ".join(line for page in read.pages for line in page).split()
    if place not in ("name",):
        assert set(words) <= set(printed)
    for number, page in enumerate(pypdfium2.PdfDocument(draw_cards(made, paper=paper, layout=LAYOUT))):
        width, height = page.get_size()
        for (left, lower, right, upper), said in words_of(page):
            assert left > 0 and lower > 0 and right < width and upper < height, (number, said)


def test_only_the_font_module_knows_font_files() -> None:
    package = Path(planner.cards.__file__).parent
    users = [path.name for path in sorted(package.glob("*.py")) if "TTFont" in path.read_text("utf-8")]
    assert users == ["fonts.py"]
