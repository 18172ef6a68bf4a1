"""Small PDFs of one part of the print each, drawn in a moment, to be compared with kept pictures of them."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from planner.cards.force_trace import draw_trace
from planner.cards.pdf_file import SheetName, draw_cards
from planner.cards.picture_pages import Chapter, Report, draw_reports
from planner.cards.source import NoFile
from planner.cards.squad_cards import DayCard, draw_day_cards
from planner.cards.wide_table import WidePicture, WideTable, draw_tables
from planner.domain.block import Block, Gym, Item
from planner.domain.card_layout import CardLayout
from planner.estimate.uncertainty import Estimate
from planner.force_platform.platform_jump import JumpPhase
from planner.units import POUND_kg

from .invented_block import block, gap, item, layout, session, week, with_session
from .test_outcome_pictures import SEASON, STRIPS
from .test_outcome_pictures import page as outcome_page
from .test_progress_report import drawn as draw_progress
from .test_sheets import TESTS

PLATES_kg = Gym(bar_kg=20.0, plates_kg=(25.0, 20.0, 15.0, 10.0, 5.0, 2.5, 1.25), dumbbells_kg=(10.0, 12.5, 20.0, 40.0))
PLATES_lb = Gym(bar_kg=45 * POUND_kg, plates_kg=tuple(plate * POUND_kg for plate in (45, 45, 25, 10, 5, 2.5)))
MASS_kg, G_m_s2, RATE_Hz = 76.0, 9.81, 500.0


@dataclass(frozen=True)
class Trace:
    """What a page needs of a jump on a platform: half a second of standing, a dip, a push, flight and a landing."""

    phases: tuple[JumpPhase, ...]
    trace_start_s: float = 0.25
    rate_Hz: float = RATE_Hz

    @property
    def trace_N(self) -> list[float]:
        weight, times = MASS_kg * G_m_s2, [self.trace_start_s + at / RATE_Hz for at in range(2100)]
        return [weight * _share(time) for time in times]

    @property
    def body_weight_N(self) -> Estimate:
        return Estimate(MASS_kg * G_m_s2, 1.0)


def _share(time_s: float) -> float:
    """Force in body weights."""
    if time_s < 0.8:
        return 1.0
    if time_s < 1.1:
        return 1.0 - 0.6 * math.sin((time_s - 0.8) / 0.3 * math.pi)
    if time_s < 1.6:
        return 1.0 + 1.2 * math.sin((time_s - 1.1) / 0.5 * math.pi)
    if time_s < 2.1:
        return 0.0
    return 1.0 + 2.5 * math.exp(-(time_s - 2.1) / 0.1)


def _phase(name: Any, start_s: float, end_s: float) -> JumpPhase:
    return JumpPhase(name, start_s, end_s, 0.0, 0.0, 0.0)


def jump() -> Any:
    edges = [0.25, 0.8, 1.1, 1.35, 1.6, 2.1, 2.6]
    names = ("weighing", "unweighting", "braking", "propulsion", "flight", "landing")
    return Trace(tuple(_phase(name, *ends) for name, *ends in zip(names, edges[:-1], edges[1:], strict=True)))


def progress() -> bytes:
    return draw_progress()


def progress_small() -> bytes:
    return draw_progress("a5")


def outcome() -> bytes:
    """The change, then what came since the first test: a season with two series that end alike."""
    season = Report("Season: Ilse", "2 blocks", [Chapter("Jump and maxima", [SEASON], "Dots: tests.")])
    return draw_reports([outcome_page(), season], layout(), paper="a4", foot="Ilse · outcome")


def trace() -> bytes:
    sentences = ["Rise by flight 31 cm, by impulse 30 cm.", "A second sentence, long enough for a line break. " * 4]
    return draw_trace([jump()], titles=["jump.txt"], lines=[sentences], paper="a5")


def _of(items: list[Item], gym: Gym | None = PLATES_kg, **more: Any) -> Block:
    made = with_session(items, **more)
    return made.model_copy(update={"for_athlete": made.for_athlete.model_copy(update={"gym": gym, "tests": TESTS})})


def _drawn(made: Block, paper: str, *sheets: SheetName, **more: Any) -> bytes:
    return draw_cards(made, paper=paper, sheets=sheets, **{"layout": layout(), **more})


def long_worded() -> CardLayout:
    """The layout with its words said twice, as if they were a language of long words."""

    def twice(words: Any) -> Any:
        said = {name: getattr(words, name) for name in type(words).model_fields}
        return words.model_copy(update={name: f"{one} {one}" for name, one in said.items() if isinstance(one, str)})

    own = layout()
    long = {"words": twice(own.words), "overview": twice(own.overview), "sheets": twice(own.sheets)}
    return own.model_copy(update=long)


def _squat(**more: Any) -> Item:
    lift = {"load_kg": 142.5, "implement": "barbell", "percent": 81.0, "reps_in_reserve": 3, "rest_s": 180}
    return item("main-lift", "Back squat, full depth", 5, 4, **lift | more)


def _to_find(implement: str, name: str = "Step-up onto a box") -> Item:
    return item("one-leg", name, 3, 8, side="each", implement=implement, reps_in_reserve=2, note="find the load")


def card_short() -> bytes:
    """In large type, with a place for notes."""
    hold = item("trunk", "Side plank", 3, hold_s=25, side="each", rest_s=45)
    return _drawn(_of([_squat(), _to_find("barbell"), hold]), "a5", "cards")


def card_full() -> bytes:
    """Every kind of row on one card, tighter."""
    jump = item("jump", "Drop jump", 3, 4, drop_m=0.3, height_m=0.5, height_of="hurdle", contacts=12, tier="high")
    items = [
        item("landing", "Ankle bounces", 12, 10, contacts=120, tier="low", rest_s=60),
        item("approach-jump", "Approach jump", 6, 1, side="left", contacts=6, tier="high", rest_s=150),
        jump.model_copy(update={"cautions": ("Stop when contact gets longer", "Mind the box.")}),
        _squat(note="the bar of the day", cautions=("Two spotters at the bar.",)),
        _to_find("pair-of-dumbbells"),
        item("hamstring", "Nordic curl", 0, 5, note="match in two days"),
        item("calf", "Calf raise", 3, 10, side="each", load_kg=40.0, implement="pair-of-dumbbells", extra_set="left"),
    ]
    return _drawn(_of(items), "a5", "cards")


def cards_two() -> bytes:
    """A session on two cards, with long texts below their boxes."""
    long = "Rear-foot-elevated split squat with the front heel on a wedge"
    cue = "Front heel down on the wedge, all the way to the bottom and up again without a rest. " * 4
    items = [
        item("landing", "Ankle bounces", 2, 10, contacts=20, tier="low", rest_s=60),
        item("sprint", "Flying sprint", 3, 1, distance_m=20, rest_s=180, cautions=("Mind the wall.",)),
        _squat(load_kg=102.06, note="Slow down"),
        *[_to_find(kind, long) for kind in ("barbell", "pair-of-dumbbells", "free", "dumbbell")],
        item("one-leg", long, 9, 8, side="each", load_kg=22.5, cues=(cue,), reps_in_reserve=2),
        item("calf", "Raise", 4, 12, load_kg=40.0, note="slow down", cautions=("Mind the step.",) * 2),
        item("trunk", "Hold", 4, hold_s=30, side="each", rest_s=45),
    ]
    return _drawn(_of(items, PLATES_lb, name="Aleksandra-Katarzyna Wiśniewska-Ołdakowska"), "half-letter", "cards")


def card_test() -> bytes:
    items = [item("test", "Test jump off six steps", 6, 1, side="left", contacts=6, tier="high", rest_s=180)]
    return _drawn(_of(items, hard_day=False), "a5", "cards")


def card_long_words() -> bytes:
    items = [
        item("approach-jump", "Approach jump", 2, 1, side="left", contacts=6, tier="high", rest_s=150),
        _to_find("barbell"),
        item("sprint", "Flying sprint", 3, 1, distance_m=20, rest_s=180),
        _squat(),
    ]
    return _drawn(_of(items), "a5", "cards", layout=long_worded())


def sheet() -> bytes:
    """Two sessions side by side, with the line to cut along."""
    raise_ = item("calf", "Calf raise", 3, 8, side="each", load_kg=20.0, rest_s=75)
    sessions = [session(1, number, [raise_] * number) for number in (1, 2)]
    made = block(weeks=1).model_copy(update={"weeks": (week(1, sessions),)})
    return _drawn(made, "a4", "cards")


def squad_cards() -> bytes:
    """Three athletes' cards of one day, close together on two sheets, each with its start and hall."""
    raise_ = item("calf", "Calf raise", 3, 8, side="each", load_kg=20.0, rest_s=75)
    made = block(weeks=1)
    own = [session(1, number, [raise_] * number) for number in (1, 2, 3)]
    cards = [
        DayCard(made, week(1, own), one, f"16:{30 + at} Gym, rack 16:50", NoFile("ana-block.yaml"))
        for at, one in enumerate(own)
    ]
    return draw_day_cards(cards, layout(), paper="a4", title="Monday")


def squad_tables() -> bytes:
    """A table that needs several small pages, one of a single row, and a picture."""
    rows = [[f"Athlete {number}", "16:30, Gym", "118 cm, 2 more"] for number in range(1, 60)]
    long = WideTable("Squad", "One line", ["who", "where and when it is"], [0.5, 0.5], [["Ana Prado", "Gym, all day"]])
    table = WideTable("Squad", "Two lines\nof them", ["who", "start", "jump"], [0.4, 0.3, 0.3], rows)
    pictures = [WidePicture("Change", "of all", STRIPS)]
    return draw_tables([table, long], paper="half-letter", pictures=pictures)


def overview() -> bytes:
    return _drawn(block(), "a4", "overview")


def overview_small() -> bytes:
    """Of thirteen weeks, one of them with five sessions, in inches, nothing proved."""
    told = gap().model_copy(update={"next_test": None, "notes": ("no tip-toe reach: assumed",)})
    made = block(weeks=13, length_unit="in", gap=told)
    full = week(2, [session(2, number, []) for number in range(1, 6)])
    made = made.model_copy(update={"weeks": (made.weeks[0], full, *made.weeks[2:])})
    return _drawn(made, "half-letter", "overview", edited=True)


def overview_long_words() -> bytes:
    return _drawn(block(weeks=2), "a5", "overview", layout=long_worded())


def tests_long_words() -> bytes:
    return _drawn(_of([_squat()]), "a5", "tests", layout=long_worded())


def tests() -> bytes:
    return _drawn(_of([_squat()]), "a4", "tests")


def tests_small() -> bytes:
    return _drawn(_of([item("test", "Test jump", 6, 1, side="left")], mass_unit="lb"), "half-letter", "tests")


def movements() -> bytes:
    return _drawn(block(weeks=4), "a4", "movements")


def movements_small() -> bytes:
    return _drawn(block(weeks=1), "half-letter", "movements")


Draw = Callable[[], bytes]
CARDS: tuple[Draw, ...] = (card_short, card_full, cards_two, card_test, card_long_words, sheet)
PAGES: tuple[Draw, ...] = (
    overview,
    overview_small,
    overview_long_words,
    tests,
    tests_small,
    tests_long_words,
    movements,
    movements_small,
    trace,
    progress,
    progress_small,
    outcome,
    squad_cards,
    squad_tables,
)


def named(look: Draw) -> str:
    """The start of its pictures' names; the number of the page follows."""
    return f"{look.__name__.replace('_', '-')}-"
