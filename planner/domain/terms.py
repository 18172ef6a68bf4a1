"""The trade's vocabulary: every word that files, rules and cards share, in its one canonical order."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal, get_args

Quality = Literal["maximal-strength", "unilateral-hip", "knee-dominant", "calf-ankle", "speed-exposure"]
QUALITIES: tuple[Quality, ...] = get_args(Quality)
# Working sets count towards these four; speed exposure is counted in sprints and high-tier contacts.
LIFT_QUALITIES: tuple[Quality, ...] = QUALITIES[:4]
# One name each, wherever a coach reads it.
QUALITY_NAMES: Mapping[Quality, str] = {
    "maximal-strength": "maximal strength",
    "unilateral-hip": "one-leg hip strength",
    "knee-dominant": "knee-dominant strength",
    "calf-ankle": "calf strength",
    "speed-exposure": "fast force and speed",
}

Joint = Literal["achilles-ankle", "patellar-knee", "hip-groin", "hamstring", "low-back"]
JOINTS: tuple[Joint, ...] = get_args(Joint)
JOINT_NAMES: Mapping[Joint, str] = {
    "achilles-ankle": "Achilles and ankle",
    "patellar-knee": "knee",
    "hip-groin": "hip and groin",
    "hamstring": "hamstring",
    "low-back": "low back",
}

Leg = Literal["left", "right"]
LEGS: tuple[Leg, ...] = get_args(Leg)


def side_and_joint(side: Leg | None, joint: Joint) -> str:
    """``left knee``; the joint alone where no side is named."""
    return f"{side} {JOINT_NAMES[joint]}" if side else JOINT_NAMES[joint]


Tier = Literal["low", "medium", "high"]
TIERS: tuple[Tier, ...] = get_args(Tier)

Level = Literal["novice", "intermediate", "advanced"]
LEVELS: tuple[Level, ...] = get_args(Level)

Kind = Literal["lift", "jump", "sprint", "hold", "skill"]
KINDS: tuple[Kind, ...] = get_args(Kind)

# What a load is built from: plates on a bar, dumbbells, the steps of a stack or a vest, or anything (bands, sandbags).
Implement = Literal["barbell", "dumbbell", "pair-of-dumbbells", "machine", "free"]
# How dates are written: 2025-09-08, 8 Sep 2025, Sep 8, 2025.
DateStyle = Literal["iso", "day-first", "month-first"]

# How a movement uses the legs: both at once, one at a time, or in turn within one set.
Legs = Literal["both", "one", "alternate"]

# Which leg an item of a session is done on: both at once, each in turn, or one leg only.
Side = Literal["both", "each", "left", "right"]

TakeOff = Literal["one-leg left", "one-leg right", "two-leg"]
TakeOffLegs = Literal["one-leg", "two-leg"]


def leg_of(take_off: TakeOff) -> Leg | None:
    """The leg that a one-leg take-off is off; None off both."""
    if take_off == "two-leg":
        return None
    return "left" if take_off == "one-leg left" else "right"


def legs_of(take_off: TakeOff) -> TakeOffLegs:
    return "two-leg" if take_off == "two-leg" else "one-leg"


Pattern = Literal[
    "squat",
    "hinge",
    "single-leg-hip",
    "knee-dominant",
    "straight-knee-calf",
    "bent-knee-calf",
    "knee-flexion",
    "adduction",
    "frontal-plane",
    "trunk",
    "vertical-jump",
    "horizontal-jump",
    "approach",
    "landing",
    "acceleration",
    "flying-sprint",
]
PATTERNS: tuple[Pattern, ...] = get_args(Pattern)

# The parts of a session a movement may belong to. The order within a session is the template's (session shapes).
Part = Literal[
    "landing", "skill", "approach-jump", "sprint", "jump", "main-lift", "one-leg", "hamstring", "calf", "trunk"
]
PARTS: tuple[Part, ...] = get_args(Part)

Day = Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
DAYS: tuple[Day, ...] = get_args(Day)  # the index is date.weekday()

Role = Literal["build", "deload", "intensify", "taper"]
ROLES: tuple[Role, ...] = get_args(Role)
# Growth is judged between load weeks; deload and taper weeks are judged against them.
LOAD_ROLES: tuple[Role, ...] = ("build", "intensify")

# How a height was taken. Heights of different method are not the same quantity (heel rise, landing posture).
HeightMethod = Literal["touch", "flight-time", "impulse", "given"]
# How the arms are held in a jump from a stand: on the hips or a bar, or free to swing.
Arms = Literal["hips", "free"]
