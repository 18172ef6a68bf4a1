"""How cards are printed: margins, sizes and every fixed word on them, so that a coach may change or translate them."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from planner.domain.base import Model, Seq, Text, _quantity
from planner.domain.measure import TestKind
from planner.domain.terms import Joint, Part, Quality, Role, Tier

Word = Annotated[str, Field(min_length=1, max_length=80)]
Sentence = Annotated[str, Field(min_length=1, max_length=400)]
# A tag after BCP 47, such as en, pt-BR: readers that speak a PDF aloud need it.
Language = Annotated[str, Field(pattern=r"^[a-zA-Z]{2,3}(-[a-zA-Z0-9]{2,8})*$")]
WarmUp = Literal["sprint", "jump", "lift", "test"]
# A margin under 5 mm is cut off by most office printers.
Margin = Annotated[float, _quantity("length"), Field(ge=0.005, le=0.03)]
BoxHeight = Annotated[float, _quantity("length"), Field(ge=0.005, le=0.015)]
Step = Annotated[float, _quantity("mass"), Field(gt=0, le=20)]
Share = Annotated[float, Field(gt=0, lt=1)]


class RampSet(Model):
    """A warm-up set before the main lift: so many reps at this share of the working load.

    ``only_from``: left out where the working load is lighter than this.
    """

    share: Share
    reps: Annotated[int, Field(ge=1, le=10)]
    only_from: Annotated[float, _quantity("mass"), Field(ge=0, le=600)] | None = None


class Ramp(Model):
    """The warm-up sets of the first main lift, as the gym's iron makes them; empty ``sets``: none printed.

    ``near``: of the loads this close (a share of the working load) the one with the fewest plates is taken. The steps
    to round to are for loads that are not built of plates or dumbbells.
    """

    sets: Annotated[Seq[RampSet], Field(max_length=5)]
    near: Share
    round_to_kg: Step
    round_to_lb: Step
    source: Text


class WarmUpStep(Model):
    """A piece of the warm-up and its usual minutes. When time is short the highest ``rank`` gives way first.

    It is shortened to ``least`` minutes before it is left out. ``not_with``: left out where the session itself has such
    a part.
    """

    do: Sentence
    minutes: Annotated[int, Field(ge=1, le=20)]
    least: Annotated[int, Field(ge=1, le=20)] | None = None
    rank: Annotated[int, Field(ge=1, le=9)] = 1
    not_with: Seq[Part] = ()


class Measures(Model):
    """Sizes on paper. ``boxes_up_to``: one box a set up to so many sets, then one long box."""

    margin: Margin
    box_height: BoxHeight
    boxes_up_to: Annotated[int, Field(ge=1, le=12)]


class CardWords(Model):
    """Words of the session card."""

    week: Word
    session: Word
    of: Word
    minutes: Word
    hard_day: Word
    warm_up: Word
    ramp: Word
    ramp_plates: Word
    ramp_by_feel: Word
    at: Word
    each_leg: Word
    each_side: Word
    left: Word
    right: Word
    goes_first: Word
    sets: Word
    body_weight: Word
    load: Word
    load_each_hand: Word
    load_free: Word
    bar: Word
    bar_alone: Word
    each_end: Word
    nearest: Word
    height: Word
    drop: Word
    box: Word
    hurdle: Word
    in_reserve: Word
    easy: Word
    of_max: Word
    rest: Word
    contacts: Word
    caution: Word
    not_this_week: Word
    continued: Word
    card: Word
    next_card: Word
    this_session: Word
    sprints: Word
    working_sets: Word
    this_week: Word
    session_effort: Word
    minutes_taken: Word
    pain_before: Word
    pain_next_morning: Word
    where: Word
    best_touch: Word
    notes: Word
    page: Word


class OverviewWords(Model):
    """Words of the overview page."""

    block: Word
    weeks_from: Word
    target: Word
    tested_by: Word
    on_the_ground: Word
    take_off: Word
    force_gap: Word
    now: Word
    gap: Word
    gap_share: Word
    rise: Word
    take_off_speed: Word
    ground_force: Word
    body_weights: Word
    one_error: Sentence
    qualities: Word
    have: Word
    need: Word
    short_by: Word
    enough: Word
    confidence: Word
    emphasis: Word
    untested: Word
    next_test: Word
    calendar: Word
    hard_mark: Sentence
    dose: Word
    how_to_read: Sentence
    sets_a_week: Word
    contacts_a_week: Word
    all_contacts: Word
    sprints_a_week: Word
    efforts: Word
    stress_a_week: Word
    points: Word
    proof: Word
    proved: Sentence
    proved_shortlist: Sentence = ""  # in layouts of earlier releases; no longer printed
    not_proved: Sentence
    edited: Sentence
    not_met: Word
    all_met: Sentence
    cautions: Word
    test_day: Word


# What is written into a box of the test sheet; mass, reach and rise are in the athlete's units.
Record = Literal[
    "mass",
    "body-mass",
    "reach",
    "rise",
    "distance",
    "time",
    "contact",
    "flight",
    "force",
    "reps",
    "reserve",
    "frames",
    "result",
]


class TestWords(Model):
    """A kind of test on the test sheet: its name, what is written down of a trial, how many, and how it is taken."""

    __test__ = False  # not a pytest class

    name: Word
    record: Annotated[Seq[Record], Field(min_length=1, max_length=4)]
    trials: Annotated[int, Field(ge=1, le=12)]
    how: Sentence


class SheetWords(Model):
    """Words of the sheet of movements and the test sheet."""

    movements: Word
    weeks: Word
    tests: Word
    battery: Word
    order: Sentence
    last_time: Word
    body_mass: Word
    body_mass_note: Sentence
    new_test: Word
    records: dict[Record, Word]


class CardLayout(Model):
    """One printing style. ``easy_above``: more repetitions in reserve than this print as ``words.easy``.

    ``tests`` stand in the order in which a test day takes them.
    """

    file: Literal["card-layout/1"]
    about: Text | None = None
    language: Language = "en"
    measures: Measures
    easy_above: Annotated[int, Field(ge=1, le=10)]
    ramp: Ramp
    days: Annotated[Seq[Word], Field(min_length=7, max_length=7)]
    months: Annotated[Seq[Word], Field(min_length=12, max_length=12)]
    parts: dict[Part | Literal["test"], Word]
    roles: dict[Role, Word]
    tiers: dict[Tier, Word]
    qualities: dict[Quality, Word]
    joints: dict[Joint, Word]
    warm_up: dict[WarmUp, Annotated[Seq[WarmUpStep], Field(min_length=1, max_length=8)]]
    approach_checks: Annotated[Seq[Word], Field(max_length=4)]
    stop_rule: Annotated[Seq[Sentence], Field(min_length=1, max_length=3)]
    test_day: Annotated[Seq[Sentence], Field(max_length=8)]
    words: CardWords
    overview: OverviewWords
    tests: dict[TestKind, TestWords]
    sheets: SheetWords
