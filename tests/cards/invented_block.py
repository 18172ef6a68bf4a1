"""An invented athlete's block, made only for the cards: eight weeks of four sessions with six to eight items each.

The figures hang together as a coach would expect, but no solver made them and no rule has seen them.
"""

from __future__ import annotations

import datetime
import re
from pathlib import Path
from typing import Any

from planner.domain.block import (
    AthleteLine,
    Band,
    Bands,
    Block,
    Item,
    LegPoints,
    Proof,
    Reference,
    Session,
    Shortfall,
    Stage,
    Totals,
    Week,
)
from planner.domain.card_layout import CardLayout
from planner.domain.gap_record import Gap, GapLine, QualityLine
from planner.domain.terms import JOINTS, LIFT_QUALITIES, Role
from planner.files.load import load_file
from planner.prescription.tally import tally

START = datetime.date(2026, 1, 5)
ROLES: tuple[Role, ...] = ("build", "build", "build", "deload", "intensify", "intensify", "intensify", "taper")
PHASES = ("build", "build", "build", "deload", "intensify", "intensify", "intensify", "taper")
# sets, reps, percent and reps in reserve of the main lift, week by week
WAVE = (
    (4, 6, 75, 4),
    (4, 6, 77.5, 3),
    (5, 4, 81, 3),
    (2, 5, 75, 5),
    (4, 4, 85, 2),
    (4, 3, 88, 2),
    (4, 2, 90, 2),
    (2, 2, 87, 3),
)
SQUAT_MAX_kg, HINGE_MAX_kg = 132.5, 150.0


def layout() -> CardLayout:
    """The layout as shipped."""
    loaded = load_file(Path(__file__).parents[2] / "templates" / "cards" / "standard.yaml")
    assert isinstance(loaded.value, CardLayout), loaded.findings
    return loaded.value


def item(part: Any, name: str, sets: int, reps: int | None = None, **more: Any) -> Item:
    more.setdefault("side", "both")
    more.setdefault("cues", ("Tall at the top, quiet on the ground.",))
    return Item(
        id=more.pop("id", "w1s1i1"),
        part=part,
        movement=re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")[:50].strip("-") or "movement",
        name=name,
        sets=sets,
        reps=reps,
        **more,
    )


def _lift(name: str, week: int, best_kg: float, **more: Any) -> Item:
    sets, reps, percent, reserve = WAVE[(week - 1) % 8]
    load_kg = round(best_kg * percent / 100 / 2.5) * 2.5
    return item(
        "main-lift", name, sets, reps, load_kg=load_kg, percent=percent, reps_in_reserve=reserve, rest_s=180, **more
    )


def _speed_day(week: int) -> list[Item]:
    return [
        item(
            "landing",
            "Ankle bounces on both legs",
            2,
            10,
            contacts=20,
            tier="low",
            rest_s=60,
            cues=("Stiff ankles, heels off the ground.",),
        ),
        item(
            "sprint",
            "Standing-start acceleration",
            4 if week > 4 else 3,
            1,
            distance_m=20,
            rest_s=150,
            cues=("Push the ground back; rise step by step.",),
        ),
        item(
            "jump",
            "Drop jump from a low box",
            3,
            4,
            height_m=0.3,
            contacts=12,
            tier="high",
            rest_s=120,
            cues=("Off the ground as if it were hot.",),
            cautions=("Stop when contact gets longer.",),
        ),
        _lift("Back squat, full depth", week, SQUAT_MAX_kg, cues=("Down to the bottom under control, up fast.",)),
        item(
            "one-leg",
            "Rear-foot-elevated split squat",
            3,
            8,
            side="each",
            load_kg=22.5,
            reps_in_reserve=2,
            rest_s=120,
            cues=("Front heel down, long way down.",),
        ),
        item(
            "calf",
            "Straight-knee calf raise from a toe-raised stretch",
            3,
            10,
            side="each",
            load_kg=20.0,
            reps_in_reserve=2,
            rest_s=75,
            cues=("Two seconds in the stretch.",),
        ),
        item(
            "trunk",
            "Side plank with leg lift",
            3,
            None,
            hold_s=25,
            side="each",
            rest_s=45,
            cues=("One line from ear to ankle.",),
        ),
    ]


def _hinge_day(week: int) -> list[Item]:
    return [
        item(
            "landing", "Step-off landing held for two seconds", 2, 5, height_m=0.3, contacts=10, tier="low", rest_s=60
        ),
        item(
            "jump",
            "Standing long jump",
            4,
            4,
            contacts=16,
            tier="medium",
            rest_s=90,
            cues=("Throw the arms, land on the whole foot.",),
        ),
        item(
            "jump",
            "One-leg hops over low hurdles",
            3,
            5,
            side="each",
            contacts=30,
            tier="medium",
            rest_s=90,
            height_m=0.2,
        ),
        _lift(
            "Straight-leg hinge with the bar", week, HINGE_MAX_kg, cues=("Hips back until the hamstrings stop you.",)
        ),
        item(
            "one-leg",
            "Step-down with raised heel",
            3,
            8,
            side="each",
            load_kg=None,
            reps_in_reserve=3,
            rest_s=90,
            cues=("Knee over the toes, five seconds down.",),
            note="Find a load that leaves three repetitions.",
        ),
        item(
            "hamstring", "Nordic curl", 0 if week in (4, 8) else 3, 5, rest_s=120, note="sprints follow within 48 hours"
        ),
        item("calf", "Bent-knee soleus raise, seated", 3, 12, load_kg=40.0, reps_in_reserve=2, rest_s=75),
        item("trunk", "Side-lying hip lift", 2, 10, side="each", load_kg=0.0, reps_in_reserve=3, rest_s=45),
    ]


def _jump_day(week: int) -> list[Item]:
    return [
        item(
            "skill",
            "Run-through of the last four steps",
            4,
            1,
            contacts=4,
            tier="low",
            rest_s=60,
            cues=("Low on the second-to-last step, quick flat last one.",),
        ),
        item(
            "approach-jump",
            "Approach jump to a mark, take-off leg",
            4 if week > 4 else 3,
            2,
            side="left",
            contacts=8,
            tier="high",
            rest_s=150,
            cues=("Run through the take-off, not up to it.",),
        ),
        item("sprint", "Flying sprint", 3, 1, distance_m=20, rest_s=180),
        _lift("Front squat, full depth", week, SQUAT_MAX_kg * 0.8),
        item("one-leg", "One-leg hip thrust", 3, 8, side="each", load_kg=30.0, reps_in_reserve=2, rest_s=90),
        item("calf", "Heavy calf hold at mid-height", 4, None, hold_s=30, side="each", load_kg=35.0, rest_s=60),
    ]


def _strength_day(week: int) -> list[Item]:
    return [
        item(
            "main-lift",
            "Step-up onto a high box",
            WAVE[(week - 1) % 8][0],
            6,
            side="each",
            load_kg=32.5,
            percent=75,
            reps_in_reserve=3,
            rest_s=120,
        ),
        item(
            "one-leg",
            "45-degree back extension on one leg",
            3,
            8,
            side="each",
            load_kg=10.0,
            reps_in_reserve=2,
            rest_s=75,
        ),
        item("hamstring", "Strapped leg curl", 3, 8, load_kg=0.0, reps_in_reserve=2, rest_s=75),
        item(
            "calf",
            "Straight-knee calf raise from a toe-raised stretch",
            3,
            10,
            side="each",
            load_kg=20.0,
            reps_in_reserve=2,
            rest_s=75,
        ),
        item("trunk", "Hip adduction, side-lying plank", 3, None, hold_s=20, side="each", rest_s=45),
    ]


_DAYS = (
    (
        0,
        _speed_day,
        True,
        82,
        "Speed and squat",
        "First in the week and fresh: fast contacts and the heaviest squat, for the force that is missing.",
    ),
    (1, _strength_day, False, 62, "One leg and calf", "Slow one-leg work while the fast tissues rest."),
    (
        3,
        _hinge_day,
        False,
        80,
        "Jumps and hinge",
        "Medium jumps for distance, then the hips: the second half of the push-off.",
    ),
    (
        5,
        _jump_day,
        True,
        76,
        "Approach jumps",
        "The jump itself, while you are fresh: everything else this week serves these.",
    ),
)


def session(week: int, number: int, items: list[Item], **more: Any) -> Session:
    day, _, hard, minutes, focus, why = _DAYS[(number - 1) % 4]
    date = START + datetime.timedelta(days=7 * (week - 1) + day)
    named = tuple(one.model_copy(update={"id": f"w{week}s{number}i{at}"}) for at, one in enumerate(items, start=1))
    values = {"minutes": minutes, "hard_day": hard, "why": why, "focus": focus, "warm_up_minutes": 10, **more}
    return Session(id=f"w{week}s{number}", date=date, items=named, **values)


def week(number: int, sessions: list[Session]) -> Week:
    done = tally(one for each in sessions for one in each.items)
    size = {"build": 1.0, "intensify": 0.9, "deload": 0.5, "taper": 0.5}[ROLES[(number - 1) % 8]]
    sets = {
        quality: round(done.working_sets * share, 2)
        for quality, share in zip(LIFT_QUALITIES, (0.3, 0.25, 0.2, 0.25), strict=True)
    }
    stress = {joint: LegPoints(left=30 * size + 2 * at, right=28 * size + 2 * at) for at, joint in enumerate(JOINTS)}
    totals = Totals(
        working_sets=sets,
        contacts=done.contacts,
        sprint_efforts=done.sprint_efforts,
        sprint_m=done.sprint_m,
        joint_stress=stress,
    )
    around = {quality: Band(low=value * 0.9, high=value * 1.12) for quality, value in sets.items()}
    bands = Bands(
        working_sets=around,
        contacts=Band(low=done.all_contacts * 0.92, high=done.all_contacts * 1.1),
        tiers={tier: Band(low=value * 0.85, high=value * 1.2 + 4) for tier, value in done.contacts.items()},
        sprint_efforts=Band(low=max(0, done.sprint_efforts - 1), high=done.sprint_efforts + 2),
        joint_stress=dict.fromkeys(JOINTS, 45.0),
    )
    role = ROLES[(number - 1) % 8]
    start = START + datetime.timedelta(days=7 * (number - 1))
    return Week(
        number=number,
        phase=PHASES[(number - 1) % 8],
        role=role,
        start=start,
        totals=totals,
        bands=bands,
        sessions=tuple(sessions),
    )


def _gap_line(
    rise_m: float, speed: float, impulse: float, net: float, ground: float, weights: float, errors: tuple[float, ...]
) -> GapLine:
    keys = (
        "rise_m",
        "take_off_speed_m_s",
        "net_impulse_Ns",
        "mean_net_force_N",
        "mean_ground_force_N",
        "mean_ground_force_bw",
    )
    values = dict(zip(keys, (rise_m, speed, impulse, net, ground, weights), strict=True))
    return GapLine(**values, **{f"{key}_se": error for key, error in zip(keys, errors, strict=True)})


def gap() -> Gap:
    def quality(
        name: Any,
        side: Any,
        have: float | None,
        need: float | None,
        unit: str,
        deficit: float,
        sure: float,
        tilt: float,
    ) -> QualityLine:
        status = "tested" if have is not None else "untested"
        return QualityLine(
            quality=name,
            side=side,
            status=status,
            have=have,
            need=need,
            unit=unit,
            deficit=deficit,
            confidence=sure,
            emphasis=tilt,
            source="invented",
        )

    return Gap(
        method="touch, heel rise taken off",
        contact_time_s=0.2,
        contact_time_from="video at 240 frames a second",
        push_off_m=None,
        body_mass_kg=68.5,
        inside_noise=False,
        now=_gap_line(0.52, 3.19, 218.8, 1094, 1766, 2.63, (0.028, 0.09, 6.0, 46, 46, 0.07)),
        target=_gap_line(0.64, 3.54, 242.7, 1213, 1885, 2.81, (0.028, 0.08, 5.6, 44, 44, 0.07)),
        gap=_gap_line(0.12, 0.35, 23.9, 119, 119, 0.18, (0.012, 0.04, 2.4, 19, 19, 0.03)),
        qualities=(
            quality("maximal-strength", "both", 1.93, 2.1, "body mass", 0.081, 0.8, 1.06),
            quality("unilateral-hip", "left", 610, 690, "N", 0.116, 0.5, 1.08),
            quality("unilateral-hip", "right", 655, 690, "N", 0.051, 0.5, 1.08),
            quality("knee-dominant", "both", None, None, "N", 0.0, 0.0, 1.0),
            quality("calf-ankle", "left", 21, 30, "reps", 0.3, 0.7, 1.22),
            quality("calf-ankle", "right", 26, 30, "reps", 0.13, 0.7, 1.22),
            quality("speed-exposure", "both", 2.2, 2.5, "ratio", 0.12, 0.6, 1.05),
        ),
        strength_share=0.6,
        speed_share=0.4,
        next_test="one-leg squat, five repetitions",
        story=("The gap is force at a short contact.",),
        notes=(),
    )


def block(
    name: str = "Ilse Marrowby", *, mass_unit: Any = "kg", length_unit: Any = "cm", weeks: int = 8, **more: Any
) -> Block:
    """The whole block; ``more`` replaces top-level fields."""
    made = [
        week(number, [session(number, place, make(number)) for place, (_, make, *_) in enumerate(_DAYS, start=1)])
        for number in range(1, weeks + 1)
    ]
    digest = Reference(path="ilse.yaml", sha256="0" * 64)
    values: dict[str, Any] = {
        "file": "block/1",
        "id": "invented",
        "athlete": digest,
        "library": digest,
        "template": digest,
        "benchmarks": digest,
        "made_with": "jumpblock 0.1.0",
        "rules_version": "0" * 8,
        "seed": 1,
        "deterministic_time": 1.0,
        "plan_sha256": "0" * 64,
        "template_name": "eight-week",
        "gap": gap(),
        "for_athlete": AthleteLine(
            name=name,
            level="intermediate",
            take_off="one-leg left",
            target="touch 3.14 m",
            mass_unit=mass_unit,
            length_unit=length_unit,
            paper="a4",
        ),
        "proof": Proof(
            status="optimal",
            scope="library",
            stages=(Stage(name="bands", status="optimal", objective=0, bound=0, unit="quarter sets"),),
        ),
        "shortfalls": (
            Shortfall(
                rule="tier-mix",
                where="week 4",
                amount=4,
                unit="contacts",
                sentence="Week 4 has 4 medium contacts fewer than asked for.",
            ),
        ),
        "cautions": (
            "Training suggestions, not medical advice; a licensed clinician comes first.",
            "Pain above 5 of 10, sharp pain or pain at night: stop and see a clinician.",
        ),
        "weeks": tuple(made),
    } | more
    return Block(**values)


def with_session(items: list[Item], **more: Any) -> Block:
    """A block of one week with one session of these items; ``athlete`` sets the name and units."""
    made = block(more.pop("name", "Ilse Marrowby"), mass_unit=more.pop("mass_unit", "kg"), weeks=1)
    return made.model_copy(update={"weeks": (week(1, [session(1, 1, items, **more)]),)})
