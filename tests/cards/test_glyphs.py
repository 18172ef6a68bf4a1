"""Every text that a coach's files put on paper is looked at before anything is drawn, each on its own line."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from planner.cards.glyphs import missing_glyphs
from planner.cards.source import Path
from planner.domain.findings import Finding

from .invented_block import block, gap, item, layout, session, week
from .test_sheets import DAY, TESTS

NO_GLYPH = "直"


@dataclass
class Noted:
    """A source that keeps the paths it was asked for."""

    path: str
    asked: list[Path] = field(default_factory=list)

    def finding(self, path: Path, code: str, message: str, hint: str = "") -> Finding:
        self.asked.append(path)
        return Finding(self.path, 1, 1, code, message, hint)


def spoilt() -> Any:
    """A block with another text that cannot be drawn in every place: each is its own path."""

    def text(place: str) -> str:
        return f"{place} {NO_GLYPH}"

    one = item("calf", text("name"), 3, 8, cues=(text("cue 0"), text("cue 1")), cautions=(text("warned"),))
    one = one.model_copy(update={"note": text("note")})
    planned = session(1, 1, [one], why=text("why"), focus=text("focus"), title=text("title"))
    made = block(text("athlete"), weeks=1, cautions=(text("caution 0"), text("caution 1")))
    test = TESTS[0].model_copy(update={"movement": text("lift"), "how": (text("how"),), "result": text("result")})
    who = made.for_athlete.model_copy(update={"target": text("target"), "tests": (test,)})
    told = {
        "method": text("method"),
        "contact_time_from": text("contact"),
        "story": (text("story 0"), text("story 1")),
        "notes": (text("assumed"),),
        "qualities": (gap().qualities[0].model_copy(update={"unit": text("unit")}),),
        "next_test": text("next"),
    }
    short = made.shortfalls[0].model_copy(update={"sentence": text("shortfall")})
    changed = {"gap": gap().model_copy(update=told), "shortfalls": (short,), "weeks": (week(1, [planned]),)}
    return made.model_copy(update={"for_athlete": who, **changed})


def test_every_text_of_a_block_is_found_with_its_path_and_its_place_in_words() -> None:
    source = Noted("block.yaml")
    found = missing_glyphs(spoilt(), layout(), source, Noted("layout.yaml"))
    places = [finding.message.partition(": the card font")[0] for finding in found]
    here: Path = ("weeks", 0, "sessions", 0)
    at: Path = (*here, "items", 0)
    of = f"of 'name {NO_GLYPH}' (week 1, session 1)"
    assert list(zip(source.asked, places, strict=True)) == [
        (("for_athlete", "name"), "athlete name"),
        (("for_athlete", "target"), "target"),
        (("for_athlete", "tests", 0, "movement"), f"test of {DAY}"),
        (("for_athlete", "tests", 0, "how"), f"test of {DAY}"),
        (("for_athlete", "tests", 0, "result"), f"test of {DAY}"),
        (("gap", "method"), "gap method"),
        (("gap", "contact_time_from"), "contact time"),
        (("gap", "story", 0), "gap"),
        (("gap", "story", 1), "gap"),
        (("gap", "notes", 0), "gap"),
        (("gap", "qualities", 0, "unit"), "maximal-strength unit"),
        (("gap", "next_test"), "next test"),
        (("cautions", 0), "caution"),
        (("cautions", 1), "caution"),
        (("shortfalls", 0, "sentence"), "shortfall"),
        ((*here, "why"), "week 1, session 1: why"),
        ((*here, "focus"), "week 1, session 1: focus"),
        ((*here, "title"), "week 1, session 1: title"),
        ((*at, "name"), "movement name (week 1, session 1)"),
        ((*at, "cues", 0), f"cue {of}"),
        ((*at, "cues", 1), f"cue {of}"),
        ((*at, "cautions", 0), f"caution {of}"),
        ((*at, "note"), f"note {of}"),
    ]
    assert {(finding.path, finding.code) for finding in found} == {("block.yaml", "no-letter")}


def test_a_text_that_recurs_is_named_once_and_at_most_eight_characters_of_it() -> None:
    made = block("".join(map(chr, range(0x4E00, 0x4E09))), weeks=2)
    sessions = [session(number, 1, [item("calf", "Raise", 3, 8, cues=(NO_GLYPH,))]) for number in (1, 2)]
    made = made.model_copy(update={"weeks": tuple(week(number, [one]) for number, one in enumerate(sessions, 1))})
    name, cue = missing_glyphs(made, layout(), Noted("block"), Noted("layout"))
    assert name.message.count("U+4E0") == 8 and name.message.endswith("…")
    assert "U+76F4" in cue.message and not cue.message.endswith("…")


def test_fixed_words_are_found_by_the_key_of_the_layout_file() -> None:
    said = layout()
    words = said.words.model_copy(update={"notes": f"N{NO_GLYPH}"})
    spoiled = said.model_copy(update={"words": words, "stop_rule": (*said.stop_rule, f"S{NO_GLYPH}")})
    source = Noted("layout.yaml")
    found = missing_glyphs(block(weeks=1), spoiled, Noted("block.yaml"), source)
    asked = {
        (".".join(map(str, path)), one.message.split(":")[0]) for path, one in zip(source.asked, found, strict=True)
    }
    last = len(said.stop_rule)
    assert asked == {("words.notes", "card layout, words.notes"), (f"stop_rule.{last}", "card layout, stop_rule")}
