"""Small blocks made by hand: a few days of a few items, for an athlete of whom a few lines are changed."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from planner.domain.block import (
    AthleteLine,
    Band,
    Bands,
    Block,
    Gym,
    Item,
    LegPoints,
    Proof,
    Session,
    Stage,
    TestLine,
    Totals,
    Week,
)
from planner.domain.gap_record import OutlookLine, QualityLine
from planner.domain.terms import DAYS, JOINTS, LIFT_QUALITIES, Quality, Role
from tests.benchmarks.coach_draws import athlete_of
from tests.cards import invented_block
from tests.coach.block_read import Read
from tests.coach.checking import Break, Check
from tests.independence.drawn import library, template

MONDAY = datetime.date(2025, 9, 8)
GYM = ["barbell", "rack", "bench", "dumbbells", "bands", "box", "step", "strap-anchor", "trap-bar", "cable", "hurdles"]
TESTED = {"date": "2025-09-05"}
TOUCH = {"kind": "touch", **TESTED, "take_off": "one-leg left", "run_up": True, "trials": ["3.0 m", "3.0 m"]}
ATHLETE = {
    "file": "athlete/1", "name": "Made Up", "birth_date": "2000-01-01", "body_mass": "80 kg", "stature": "1.85 m",
    "standing_reach": "2.4 m", "take_off": "one-leg left", "approach": {"steps": 5}, "level": "intermediate",
    "training_age_years": 4,
    "training": {"days": [{"day": day, "minutes": 75} for day in ("mon", "tue", "thu", "sat")]},
    "equipment": {"items": GYM, "bar": "20 kg", "plates": ["20 kg", "10 kg"], "dumbbells": ["10 kg", "20 kg"],
                  "runway": "60 m"},
    "landing": "holds", "target": {"touch": "3.1 m", "method": "touch"}, "tests": [TOUCH],
}  # fmt: skip
TAGS = (0.0, 0.25, 0.5, 1.0)  # of a set, by the tag


@dataclass(frozen=True)
class Day:
    """A session: its items, and what else a card says of it."""

    items: Sequence[Item]
    why: str = "Made up."
    minutes: int = 60
    warm_up: int = 10
    hard: bool = False


Days = Mapping[str, Day | Sequence[Item]]


@dataclass(frozen=True)
class Case:
    """A check with a block that it must find at fault, and one that it must read and leave alone."""

    check: Check
    fires: Read
    quiet: Read

    def hold(self) -> None:
        found, left = self.check.breaks(self.fires), self.check.breaks(self.quiet)
        assert found, f"{self.check.id} finds nothing, or does not apply"
        assert all(isinstance(one, Break) and one.says for one in found)
        assert left == [], f"{self.check.id}: {None if left is None else [str(one) for one in left]}"


def do(movement: str, sets: int, reps: int | None = None, *, kg: float | None = None, left: int | None = None,
       hold: int | None = None, percent: float | None = None, side: Any = None, tier: Any = None) -> Item:  # fmt: skip
    """An item of the shipped library, counted as a card counts it."""
    known = library()[movement]
    jump, sprint = known.jump, known.sprint
    leg = "left" if jump is not None and jump.take_off_leg_only else "each"
    side = side or ("both" if known.legs == "both" else leg)
    landings = sets * (reps or 1) * (2 if side == "each" else 1) * jump.contacts_per_rep if jump else 0
    return Item(
        id="w1s1i1", part=known.part, movement=movement, name=known.name, side=side, sets=sets, reps=reps,
        load_kg=kg, implement=known.dose.implement, percent=percent, reps_in_reserve=left, hold_s=hold,
        distance_m=sprint.distance if sprint else None, drop_m=jump.drop if jump else None, contacts=landings,
        tier=tier or (jump.tier if jump else None),
    )  # fmt: skip


def short(quality: Quality, by: float, *, error: float = 0.09, confidence: float = 0.5) -> QualityLine:
    """A tested quality that is short by a share; below 0 it has to spare."""
    return QualityLine(
        quality=quality, side="both", status="tested", have=100.0, need=100.0 / (1 - by), unit="N", deficit=by,
        confidence=confidence, emphasis=1.0, source="made", deficit_se=error,
    )  # fmt: skip


def made(
    *weeks: tuple[str, Days],
    athlete: Mapping[str, Any] | None = None,
    qualities: Sequence[QualityLine] = (),
    story: Sequence[str] = (),
    notes: Sequence[str] = (),
    shares: tuple[float, float] | None = None,
    stages: Sequence[Stage] = (),
    shape: str = "eight-week",
    ceiling: float = 72.0,
    asked: Sequence[TestLine] = (),
) -> Read:
    """A block of these weeks, each with its phase (``build``, ``strengthen``, ``deload``, ``intensify``, ``taper``).

    ``asked``: the tests that the sheet for the test day repeats.
    """
    who = athlete_of({**ATHLETE, **(athlete or {})})
    outlook = OutlookLine(low_m=0.02, high_m=0.05, blocks_low=1, blocks_high=2)
    gap = invented_block.gap().model_copy(
        update={
            "qualities": tuple(qualities), "story": tuple(story), "notes": tuple(notes), "outlook": outlook,
            "strength_share": shares[0] if shares else None, "speed_share": shares[1] if shares else None,
        }
    )  # fmt: skip
    gym = Gym(bar_kg=20.0, plates_kg=(25.0, 20.0, 10.0, 5.0, 2.5, 1.25), dumbbells_kg=tuple(who.equipment.dumbbells))
    line = AthleteLine(
        name=who.name, level=who.level, take_off=who.take_off, target="3.1 m", mass_unit="kg", length_unit="cm",
        paper="a4", gym=gym, tests=tuple(asked),
    )  # fmt: skip
    bands = Stage(name="bands", status="optimal", objective=0, bound=0, unit="points")
    block: Block = invented_block.block(weeks=1).model_copy(
        update={
            "gap": gap, "for_athlete": line, "cautions": (), "shortfalls": (),
            "proof": Proof(status="optimal", scope="library", stages=(bands, *stages)),
            "weeks": tuple(_week(number, phase, days, ceiling) for number, (phase, days) in enumerate(weeks, start=1)),
        }
    )  # fmt: skip
    return Read(block, who, library(), template(shape))


def _week(number: int, phase: str, days: Days, ceiling: float) -> Week:
    start = MONDAY + datetime.timedelta(days=7 * (number - 1))
    ordered = sorted(days.items(), key=lambda one: DAYS.index(one[0]))  # type: ignore[arg-type]
    sessions = tuple(_session(number, place, start, name, day) for place, (name, day) in enumerate(ordered, start=1))
    items = [item for session in sessions for item in session.items]
    role: Role = "build" if phase == "strengthen" else phase  # type: ignore[assignment]
    none = Band(low=0, high=0)
    return Week(
        number=number, phase=phase, role=role, start=start, sessions=sessions,
        totals=Totals(
            working_sets={quality: _sets(items, quality) for quality in LIFT_QUALITIES}, contacts={}, sprint_efforts=0,
            sprint_m=0.0, joint_stress={joint: LegPoints(left=0, right=0) for joint in JOINTS},
        ),
        bands=Bands(
            working_sets=dict.fromkeys(LIFT_QUALITIES, none), contacts=none,
            tiers={"low": none, "medium": none, "high": none}, sprint_efforts=none,
            joint_stress=dict.fromkeys(JOINTS, ceiling),
        ),
    )  # fmt: skip


def _session(week: int, place: int, start: datetime.date, name: str, day: Day | Sequence[Item]) -> Session:
    told = day if isinstance(day, Day) else Day(day)
    items = tuple(one.model_copy(update={"id": f"w{week}s{place}i{at}"}) for at, one in enumerate(told.items, start=1))
    date = start + datetime.timedelta(days=DAYS.index(name))  # type: ignore[arg-type]
    return Session(
        id=f"w{week}s{place}", date=date, minutes=told.minutes, hard_day=told.hard, why=told.why, focus="made",
        warm_up_minutes=told.warm_up, items=items,
    )  # fmt: skip


def _sets(items: Sequence[Item], quality: Quality) -> float:
    known = library()
    return sum(TAGS[known[i.movement].qualities.get(quality, 0)] * i.sets for i in items if not i.contacts)
