"""A block with its athlete, library and template, and the words that its cards print: all that a check may look at.

Nothing here comes from the rules, the problem or the solver: what is counted is counted again from the printed items.
"""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from functools import cache, cached_property
from pathlib import Path
from typing import cast

from planner.domain.athlete import Athlete, Fixture
from planner.domain.block import Block, Item, Session, Week
from planner.domain.card_layout import CardLayout
from planner.domain.gap_record import QualityLine
from planner.domain.measure import HeelRaiseTest, LiftTest
from planner.domain.movement import Movement
from planner.domain.movement_library import Library
from planner.domain.template import Template
from planner.domain.terms import DAYS, LEGS, LOAD_ROLES, Joint, Leg, Quality
from planner.files.load import load_athlete, load_block, load_file, load_library, load_template

ROOT = Path(__file__).parents[2]
EPLEY_REPS = 30.0  # 1RM = w (1 + r / 30)
OTHER_FORMS = ("pause-jump", "tuck-jumps")  # jumped otherwise than for a mark
FREE_RAISES = 0.65  # a heel raise without a metronome counts so much of a strict one (Green 2024, the ratio)
# Points of a joint for a dose, by the movement's tag of 0 to 3; a dose is ten contacts of a leg, a set, 30 s of holding
# or 30 m of sprinting: common practice, no source.
WEIGHTS, CONTACTS_A_DOSE, HOLD_s, SPRINT_m = (0, 1, 2, 4), 10, 30, 30


@cache
def card_layout() -> CardLayout:
    """The words of the cards as shipped."""
    return cast(CardLayout, load_file(ROOT / "templates/cards/standard.yaml", kinds=("card-layout/1",)).require())


@dataclass(frozen=True)
class Line:
    """One item of a session of a week, with its movement; a test's jumps are no movement and are not lines."""

    week: Week
    session: Session
    item: Item
    movement: Movement

    @property
    def takes_load(self) -> bool:
        """Whether the movement is one that is loaded, if only with a little, or pushed against a fixed bar."""
        return bool(self.item.load_kg) or self.movement.dose.load != "none" or self._against_a_bar

    @property
    def loaded(self) -> bool:
        """Whether a load is printed, or one is to be found: not body weight alone."""
        by_body = (self.item.note or "").lower().startswith("body weight")
        return bool(self.item.load_kg) or (self.takes_load and not by_body)

    @property
    def _against_a_bar(self) -> bool:
        return self.movement.kind == "hold" and "rack" in self.movement.equipment

    @property
    def is_lift(self) -> bool:
        return self.movement.kind == "lift"

    @property
    def minutes(self) -> float:
        """All its sets with their rests; both legs where they are worked apart."""
        sides = 2 if self.item.side == "each" else 1
        return self.item.sets * (self.movement.dose.set_time * sides + self.movement.dose.rest) / 60

    @property
    def works(self) -> bool:
        return self.item.sets > 0

    def leg_contacts(self, leg: Leg) -> float:
        """Landings of one leg: all of them in a two-leg jump, half where the legs take turns."""
        if self.item.side in LEGS:
            return self.item.contacts if self.item.side == leg else 0.0
        return self.item.contacts if self.movement.legs == "both" else self.item.contacts / 2

    def points(self, joint: Joint, leg: Leg) -> float:
        """Joint stress of a leg."""
        item, weight = self.item, WEIGHTS[self.movement.stress.get(joint, 0)]
        if item.side in LEGS and item.side != leg:
            return 0.0
        if item.contacts:
            return weight * self.leg_contacts(leg) / CONTACTS_A_DOSE
        if self.movement.sprint is not None:
            return weight * item.sets * (item.reps or 1) * (item.distance_m or 0) / SPRINT_m
        return weight * item.sets * (item.hold_s / HOLD_s if item.hold_s else 1)


@dataclass(frozen=True, eq=False)  # one block is itself: what is printed of it is kept
class Read:
    block: Block
    athlete: Athlete
    library: Library
    template: Template
    layout: CardLayout = field(default_factory=card_layout)

    # --- Weeks ---

    @cached_property
    def load_weeks(self) -> list[Week]:
        return [week for week in self.block.weeks if week.role in LOAD_ROLES]

    @cached_property
    def load_phases(self) -> list[list[Week]]:
        """The load weeks of each phase, in order."""
        found: dict[str, list[Week]] = {}
        for week in self.load_weeks:
            found.setdefault(week.phase, []).append(week)
        return list(found.values())

    @property
    def later_weeks(self) -> list[Week]:
        """Load weeks from the second phase on; none where the block has one phase."""
        return [week for phase in self.load_phases[1:] for week in phase]

    @cached_property
    def dated(self) -> dict[datetime.date, tuple[Week, Session]]:
        """Sessions by date, in order."""
        return {session.date: (week, session) for week in self.block.weeks for session in week.sessions}

    def day_before(self, session: Session) -> Session | None:
        found = self.dated.get(session.date - datetime.timedelta(days=1))
        return found[1] if found else None

    # --- Items ---

    @cached_property
    def lines(self) -> list[Line]:
        return [line for week in self.block.weeks for session in week.sessions for line in self.of(week, session)]

    def of(self, week: Week, session: Session | None = None) -> list[Line]:
        """The items of a week or of one session that have sets."""
        return [
            Line(week, one, item, self.library[item.movement])
            for one in week.sessions
            if session is None or one.id == session.id
            for item in one.items
            if item.sets and item.movement in self.library
        ]

    def where(self, fits: Callable[[Line], bool], weeks: list[Week] | None = None) -> Iterator[Line]:
        wanted = {week.number for week in (self.block.weeks if weeks is None else weeks)}
        return (line for line in self.lines if line.week.number in wanted and fits(line))

    def family(self, line: Line) -> str:
        return self.library.families.get(line.movement.id, "")

    # --- The athlete ---

    @property
    def is_novice(self) -> bool:
        return self.athlete.level == "novice"

    @property
    def age_years(self) -> float:
        return (self.block.weeks[0].start - self.athlete.birth_date).days / 365.25

    @property
    def is_young(self) -> bool:
        return self.age_years < self.template.youth.under_years

    @property
    def planned_as_novice(self) -> bool:
        """By level, or by age: a novice's limits hold for the young, whatever their file says."""
        return self.is_novice or self.is_young

    def pain(self, *joints: Joint) -> int:
        return max((state.pain for state in self.athlete.joints if state.joint in joints), default=0)

    @cached_property
    def lifts(self) -> dict[str, LiftTest]:
        """The heaviest test of each lift, by its movement."""
        found: dict[str, LiftTest] = {}
        for test in self.athlete.tests:
            if isinstance(test, LiftTest) and (test.movement not in found or found[test.movement].load < test.load):
                found[test.movement] = test
        return found

    def one_rm_kg(self, movement: str) -> float | None:
        """Load of the tested lift's maximum, by Epley on what is lifted; None where it was not tested."""
        test, known = self.lifts.get(movement), self.library.get(movement)
        if test is None or known is None:
            return None
        body_kg = known.dose.body_mass_share * self.athlete.body_mass
        return (test.load + body_kg) * (1 + (test.reps + test.reps_in_reserve) / EPLEY_REPS) - body_kg

    def strict_raises(self) -> float | None:
        """One-leg heel raises of the weaker leg, as strict ones; None where none were tested."""
        tests = [test for test in self.athlete.tests if isinstance(test, HeelRaiseTest)]
        counts = [count * (1 if t.form == "strict" else FREE_RAISES) for t in tests for count in _legs(t)]
        return min(counts, default=None)

    def deficit(self, quality: Quality) -> QualityLine | None:
        """The line of the gap by which the quality is judged: the one that counts and is shortest."""
        lines = [line for line in self.block.gap.qualities if line.quality == quality and line.counts]
        tested = [line for line in lines if line.status == "tested"]
        return max(tested, key=lambda line: line.deficit, default=None)

    def can_use(self, movement: Movement) -> bool:
        """Whether the gym has what the movement needs, and no line of the file bans it."""
        has = set(self.athlete.equipment.items)
        has |= {"barbell"} if self.athlete.equipment.bar is not None else set()
        has |= {"dumbbells"} if self.athlete.equipment.dumbbells else set()
        return set(movement.equipment) <= has and movement.id not in self.athlete.bans

    @property
    def runway_m(self) -> float:
        return self.athlete.equipment.runway or 0.0

    @property
    def has_loads(self) -> bool:
        return bool(self.athlete.equipment.dumbbells) or self.athlete.equipment.bar is not None

    def matches_on(self, date: datetime.date) -> list[Fixture]:
        return [one for one in self.athlete.matches if one.date == date or one.day == DAYS[date.weekday()]]

    def hard_sport_on(self, date: datetime.date) -> bool:
        hard = [one for one in self.athlete.practices if one.hardness == "hard"]
        return bool(self.matches_on(date)) or any(p.date == date or p.day == DAYS[date.weekday()] for p in hard)

    @property
    def sport_contacts_week(self) -> int:
        return sum(one.contacts for one in (*self.athlete.practices, *self.athlete.matches) if one.day is not None)

    # --- What is counted ---

    def is_target_jump(self, line: Line, least_percent: int) -> bool:
        """The jump that the target asks for: off the run-up or from the stand, off the same legs, free of load."""
        jump = line.movement.jump
        if jump is None or jump.direction != "vertical" or jump.effort_percent < least_percent or line.loaded:
            return False
        one_leg = self.athlete.take_off != "two-leg"
        if one_leg == (line.movement.legs == "both"):
            return False
        if self.athlete.approach.steps:
            return line.item.part == "approach-jump"
        plain = not line.movement.equipment and jump.drop is None and jump.height is None
        plain = plain and line.movement.id not in OTHER_FORMS
        return plain and jump.approach == "standing" and line.item.part in ("jump", "approach-jump")

    def points(self, session: Session, joint: Joint) -> float:
        """Joint stress of a session, of the leg that takes more."""
        week = self.dated[session.date][0]
        lines = self.of(week, session)
        return max(sum(line.points(joint, leg) for line in lines) for leg in LEGS)


def _legs(test: HeelRaiseTest) -> list[int]:
    return [count for count in (test.left, test.right) if count is not None]


def read_block(path: Path) -> Read:
    """The block at ``path`` with the files it names, read from where it says they are."""
    block = load_block(path).require()
    places = {name: _place(getattr(block, name).path, path.parent) for name in ("athlete", "library", "template")}
    library = load_library(places["library"]).require()
    athlete = load_athlete(places["athlete"], library=library).require()
    return Read(block, athlete, library, load_template(places["template"]).require())


def _place(written: str, folder: Path) -> Path:
    """A path of the block; what came with the package is in this repository."""
    return ROOT / written.partition("/")[2] if written.startswith("(") else folder / written
