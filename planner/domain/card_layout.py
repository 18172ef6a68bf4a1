"""How cards are printed: margins, sizes and every fixed word on them, so that a coach may change or translate them."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, model_validator

from planner.domain.base import Model, Seq, Text, quantity
from planner.domain.completeness import require_every_word
from planner.domain.fields import About, FileKind, Have, InBodyWeights, Need, Source
from planner.domain.measure import TestKind
from planner.domain.terms import Joint, Part, Quality, Role, Tier

Word = Annotated[str, Field(min_length=1, max_length=80)]
Sentence = Annotated[str, Field(min_length=1, max_length=400)]
# A tag after BCP 47, such as en, pt-BR: readers that speak a PDF aloud need it.
Language = Annotated[str, Field(pattern=r"^[a-zA-Z]{2,3}(-[a-zA-Z0-9]{2,8})*$")]
WarmUp = Literal["sprint", "jump", "lift", "test"]
# A margin under 5 mm is cut off by most office printers.
Margin = Annotated[float, quantity("length"), Field(ge=0.005, le=0.03)]
BoxHeight = Annotated[float, quantity("length"), Field(ge=0.005, le=0.015)]
Step = Annotated[float, quantity("mass"), Field(gt=0, le=20)]
Length = Annotated[float, quantity("length"), Field(ge=0, le=100)]
Share = Annotated[float, Field(gt=0, lt=1)]


ItsUnit = Annotated[Word, Field(description="Its unit.")]


class RampSet(Model):
    """A warm-up set before the main lift."""

    share: Share = Field(description="Share of the working load.")
    reps: int = Field(ge=1, le=10, description="Repetitions.")
    only_from: Annotated[float, quantity("mass"), Field(ge=0, le=600)] | None = Field(
        default=None, description="Left out where the working load is lighter than this."
    )


class Ramp(Model):
    """The warm-up sets of the first main lift, as the gym's plates and dumbbells make them."""

    sets: Seq[RampSet] = Field(max_length=5, description="The warm-up sets, lightest first; an empty list prints none.")
    near: Share = Field(
        description="Of the loads this near (a share of the working load) the one with the fewest plates is taken."
    )
    round_to_kg: Step = Field(description="Step for loads that are not built of plates or dumbbells, on cards in kg.")
    round_to_lb: Step = Field(description="The same on cards in lb.")
    source: Source


class WarmUpStep(Model):
    """A piece of the warm-up."""

    do: Sentence = Field(description="What to do, as printed.")
    minutes: int = Field(ge=1, le=20, description="Its usual length, minutes.")
    least: Annotated[int, Field(ge=1, le=20)] | None = Field(
        default=None, description="Shortened to this before it is left out, minutes."
    )
    rank: int = Field(default=1, ge=1, le=9, description="When time is short the highest rank is left out first.")
    run: Length | None = Field(default=None, description="Its longest run; {run} in its text is the length that fits.")
    run_out: Length = Field(default=0.0, description="Floor that is left at the end of the run to slow down.")
    no_floor: Sentence | None = Field(default=None, description="Printed instead where the floor is too short to run.")
    not_with: Seq[Part] = Field(default=(), description="Left out where the session itself has such a part.")


class Measures(Model):
    """Sizes on paper."""

    margin: Margin = Field(description="White edge of the card; many printers cut off what is nearer to the edge.")
    box_height: BoxHeight = Field(description="Height of the boxes to write in.")
    boxes_up_to: int = Field(ge=1, le=12, description="One box a set up to this many sets, then one long box.")


class CardWords(Model):
    """Words of the session card."""

    week: Word = Field(description="Before the number of the week.")
    session: Word = Field(description="Before the number of the session.")
    of: Word = Field(description="Between a number and how many there are.")
    minutes: Word = Field(description="After the planned length.")
    hard_day: Word = Field(description="The mark of a hard day.")
    warm_up: Word = Field(description="Heading of the warm-up.")
    ramp: Word = Field(description="Before the warm-up sets of a lift.")
    ramp_plates: Word = Field(description="The same where the plates of each side are written out.")
    ramp_by_feel: Word = Field(description="Instead, where the athlete finds the load.")
    at: Word = Field(description="Between repetitions and load.")
    each_leg: Word = Field(description="After the sets of what is done on each leg.")
    each_side: Word = Field(description="The same for each side of the trunk.")
    left: Word = Field(description="For the left leg alone.")
    right: Word = Field(description="For the right leg alone.")
    goes_first: Word = Field(description="After the weaker leg where it gets an extra set; its sets follow.")
    sets: Word = Field(description="Working sets of an item.")
    body_weight: Word = Field(description="In place of a load.")
    load: Word = Field(description="Before a load, or over the box for one.")
    load_each_hand: Word = Field(description="Where a dumbbell is held in each hand.")
    load_free: Word = Field(description="Where any load or band will do.")
    bar: Word = Field(description="Before the mass of the bar.")
    bar_alone: Word = Field(description="Where no plate is on the bar.")
    each_end: Word = Field(description="Before the plates of each end of the bar.")
    nearest: Word = Field(description="Before the load that the gym can build, where it is not the one asked for.")
    height: Word = Field(description="Before a height.")
    drop: Word = Field(description="Before the height stepped off from.")
    box: Word = Field(description="A box to jump onto.")
    hurdle: Word = Field(description="A hurdle to jump over.")
    in_reserve: Word = Field(description="After the number of reps in reserve.")
    one_in_reserve: Word = Field(default="rep in reserve", description="The same where one is left.")
    easy: Word = Field(description="Printed instead where more are left than anyone can judge.")
    fly_in: Word = Field(default="build-up first", description="After the build-up of a flying sprint.")
    of_max: Word = Field(description="After the percentage of the one-repetition maximum.")
    of_max_with_body: Word = Field(
        default="% of max of body and load", description="The same where the percentage is of load and body together."
    )
    next_load: Word = Field(default="Next load", description="Heading of a novice's rule for the next load.")
    when_next_load: Sentence = Field(
        default="Two more left than asked: next load up.",
        description="When a novice takes the next load; printed under a session with a loaded lift.",
    )
    rest: Word = Field(description="Before the rest after a set.")
    contacts: Word = Field(description="After a number of landings.")
    caution: Word = Field(description="Before the cautions of a movement.")
    not_this_week: Word = Field(description="For an item that is left out on this date.")
    continued: Word = Field(description="Heading of a card's second part.")
    card: Word = Field(description="Before the number of a card, where a session takes several.")
    next_card: Word = Field(description="At the foot where the session goes on.")
    this_session: Word = Field(description="Before the session's own sums.")
    sprints: Word = Field(description="After a number of sprints.")
    working_sets: Word = Field(description="After a number of working sets.")
    this_week: Word = Field(description="After the sums of the week.")
    session_effort: Word = Field(description="Over the box for how hard the session was.")
    minutes_taken: Word = Field(description="Over the box for how long it took.")
    pain_before: Word = Field(description="Over the box for pain before the session.")
    pain_next_morning: Word = Field(description="Over the box for pain the morning after.")
    where: Word = Field(description="Over the box for which joint and side.")
    best_touch: Word = Field(description="Over the box for the day's best touch.")
    notes: Word = Field(description="Over the lines for notes.")
    page: Word = Field(description="Before the number of the page.")


class OverviewWords(Model):
    """Words of the overview page."""

    block: Word = Field(description="Title of the page.")
    weeks_from: Word = Field(description="Between the number of weeks and the first day.")
    target: Word = Field(description="Before the target.")
    tested_by: Word = Field(description="Before how the height was measured.")
    on_the_ground: Word = Field(description="Before the time or distance in which the take-off pushes.")
    take_off: Word = Field(description="Before which leg or legs jump.")
    force_gap: Word = Field(description="Heading of the force gap.")
    now: Word = Field(description="Column of today's figures.")
    gap: Word = Field(description="Column of the difference.")
    gap_share: Word = Field(description="Column of the difference in percent.")
    rise: Word = Field(description="Row of the rise after take-off.")
    take_off_speed: Word = Field(description="Row of the speed at take-off.")
    ground_force: Word = Field(description="Row of the mean ground force.")
    body_weights: InBodyWeights[Word]
    one_error: Sentence = Field(description="What the ± and the marks in the picture mean.")
    qualities: Word = Field(description="Heading of the five qualities.")
    have: Have[Word]
    need: Need[Word]
    short_by: Word = Field(description="After the amount that is missing.")
    enough: Word = Field(description="Where nothing is missing.")
    confidence: Word = Field(description="How sure that is.")
    emphasis: Word = Field(description="What a quality's share of the sets is multiplied by.")
    untested: Word = Field(description="Where no test was done.")
    next_test: Word = Field(description="Before the test that would tell most.")
    calendar: Word = Field(description="Heading of the calendar.")
    hard_mark: Sentence = Field(description="What the mark of a hard day looks like.")
    dose: Word = Field(description="Heading of the charts.")
    how_to_read: Sentence = Field(description="How the charts are read.")
    sets_a_week: Word = Field(description="Unit of the charts of working sets.")
    contacts_a_week: Word = Field(description="Unit of the charts of landings.")
    all_contacts: Word = Field(description="Title of the chart of all landings.")
    sprints_a_week: Word = Field(description="Title of the chart of sprints.")
    efforts: ItsUnit
    stress_a_week: Word = Field(description="After the joint in the title of a chart of joint stress.")
    points: ItsUnit
    proof: Word = Field(description="Heading of what was proved.")
    proved: Sentence = Field(description="Where no other block comes closer.")
    proved_shortlist: Sentence = Field(default="", description="In layouts of earlier releases; no longer printed.")
    not_proved: Sentence = Field(description="Where a better block may exist.")
    edited: Sentence = Field(description="Where the block was edited by hand.")
    not_met: Word = Field(description="Before each week that is over or under its range.")
    all_met: Sentence = Field(description="Where no week is over or under.")
    cautions: Word = Field(description="Heading of the cautions.")
    test_day: Word = Field(description="Heading of the test day.")


# What is written in a box of the test sheet; mass, reach and rise are in the athlete's units.
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

    name: Word = Field(description="Its name on the test sheet.")
    record: Seq[Record] = Field(min_length=1, max_length=4, description="What is written down of a trial.")
    trials: int = Field(ge=1, le=12, description="Number of rows for trials.")
    how: Sentence = Field(description="How it is taken, in a sentence.")
    minutes: int | None = Field(
        default=None, ge=0, le=120, description="Minutes that its trials take, of one leg where legs are apart."
    )


class SheetWords(Model):
    """Words of the sheet of movements and the test sheet."""

    movements: Word = Field(description="Title of the sheet of movements.")
    weeks: Word = Field(description="Before the weeks in which a movement is done.")
    tests: Word = Field(description="Title of the test sheet.")
    battery: Word = Field(description="Heading of its tests.")
    order: Sentence = Field(description="In what order they are taken.")
    last_time: Word = Field(description="Before the last result.")
    minute: Word | None = Field(
        default=None, description="Before the start and end minute of each test; left out, no timetable is printed."
    )
    warm_up_minutes: int = Field(default=0, ge=0, le=60, description="Minutes of body mass and warm-up before them.")
    body_mass: Word = Field(description="Name of the box for body mass.")
    body_mass_note: Sentence = Field(description="How body mass is taken.")
    new_test: Word = Field(description="Where a test has no earlier result.")
    records: dict[Record, Word] = Field(description="Headings of the boxes, by what is written in them.")

    @model_validator(mode="after")
    def _whole(self) -> SheetWords:
        require_every_word(self, "records")
        return self


class CardLayout(Model):
    """One printing style."""

    file: FileKind[Literal["card-layout/1"]]
    about: About[Text | None] = None
    language: Language = Field(default="en", description="Tag of the language of the words, such as en or pt-BR.")
    measures: Measures = Field(description="Margins and boxes.")
    easy_above: int = Field(
        ge=1, le=10, description="More reps in reserve than this are a guess; the card then says words.easy."
    )
    ramp: Ramp = Field(description="The warm-up sets of the first main lift.")
    days: Seq[Word] = Field(min_length=7, max_length=7, description="Seven short names of weekdays, Monday first.")
    months: Seq[Word] = Field(min_length=12, max_length=12, description="Twelve short names of months, January first.")
    parts: dict[Part | Literal["test"], Word] = Field(description="What each part of a session is called on the card.")
    roles: dict[Role, Word] = Field(description="What each role of a week is called.")
    tiers: dict[Tier, Word] = Field(description="What each tier of contacts is called.")
    qualities: dict[Quality, Word] = Field(description="What each quality is called.")
    joints: dict[Joint, Word] = Field(description="What each joint is called.")
    warm_up: dict[WarmUp, Annotated[Seq[WarmUpStep], Field(min_length=1, max_length=8)]] = Field(
        description="The steps of the warm-up, by the most demanding thing in the session."
    )
    before_run_up_jumps: Annotated[Seq[WarmUpStep], Field(max_length=8)] = Field(
        default=(), description="The steps before maximal jumps off the run-up; left out, those of the session."
    )
    warm_up_for: dict[str, Annotated[Seq[WarmUpStep], Field(min_length=1, max_length=8)]] = Field(
        default_factory=dict,
        description="The steps for one kind of session, by the id of its shape, before all others.",
    )
    approach_checks: Seq[Word] = Field(
        max_length=4, description="What the coach ticks on a day with approach jumps; at most four."
    )
    stop_rule: Seq[Sentence] = Field(
        min_length=1, max_length=3, description="When pain means stop; at the foot of every card."
    )
    test_day: Seq[Sentence] = Field(max_length=8, description="How the test day is run, printed on its card.")
    words: CardWords = Field(description="The fixed words of the session card.")
    overview: OverviewWords = Field(description="The fixed words of the overview page.")
    tests: dict[TestKind, TestWords] = Field(
        description="Each kind of test on the test sheet, in the order in which a test day takes them."
    )
    sheets: SheetWords = Field(description="The fixed words of the sheet of movements and of the test sheet.")

    @model_validator(mode="after")
    def _whole(self) -> CardLayout:
        """A word that a card lacks would be missed only when that card is drawn."""
        require_every_word(self, "parts", "roles", "tiers", "qualities", "joints", "warm_up")
        return self
