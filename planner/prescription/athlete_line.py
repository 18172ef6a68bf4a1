"""What a block keeps of the athlete, so that cards read only the block."""

from __future__ import annotations

from planner.domain.athlete import Athlete
from planner.domain.block import PAIN, AthleteLine, Gym
from planner.domain.movement_library import Library
from planner.domain.terms import Joint, Leg
from planner.prescription.battery import test_lines
from planner.units import format_length

# Longer than elsewhere, and not to be changed: a caution of an earlier block is known again by its words.
JOINT_WORDS: dict[Joint, str] = {
    "achilles-ankle": "Achilles tendon or ankle",
    "patellar-knee": "knee or patellar tendon",
    "hip-groin": "hip or groin",
    "hamstring": "hamstring",
    "low-back": "low back",
}


def joint_in_words(joint: Joint, side: Leg | None) -> str:
    return f"{side} {JOINT_WORDS[joint]}" if side else JOINT_WORDS[joint]


def pain_caution(where: str, pain: int) -> str:
    """``where``: the joint in words."""
    return f"{PAIN}{where}: {pain} of 10; it is loaded less, ask before each set."


def athlete_line(athlete: Athlete, library: Library) -> AthleteLine:
    target, gym = athlete.target, athlete.equipment
    inches = athlete.print_as.length == "in"
    if target.touch is not None:
        aim = f"touch {format_length(target.touch, 'in', 1) if inches else f'{target.touch:.2f} m'}"
    elif inches:
        aim = f"rise {format_length(target.rise or 0, 'in', 1)} ({target.method})"
    else:
        aim = f"rise {target.rise or 0:.2f} m ({target.method})"
    run_up = f"{athlete.approach.steps}-step run-up" if athlete.approach.steps else "from a stand"
    return AthleteLine(
        name=athlete.name,
        level=athlete.level,
        take_off=f"{athlete.take_off}, {run_up}",
        target=aim,
        mass_unit=athlete.print_as.mass,
        length_unit=athlete.print_as.length,
        paper=athlete.print_as.paper,
        dates=athlete.print_as.dates,
        gym=Gym(bar_kg=gym.bar, plates_kg=gym.plates, dumbbells_kg=gym.dumbbells),
        runway_m=gym.runway or 0.0,
        times={day.day: day.time for day in athlete.training.days if day.time},
        tests=test_lines(athlete, library),
    )
