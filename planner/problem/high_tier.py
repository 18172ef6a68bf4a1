"""The gate to high-tier jumps: level, landings, and a strong enough squat or a coach's allowance.

It closes shock jumps. The athlete's own jump off the run-up is nothing new to somebody whose usual week already holds
it, so a weak squat alone leaves that jump open.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from planner.domain.athlete import Athlete
from planner.domain.movement import Movement
from planner.domain.template import LevelPlan, Template
from planner.estimate.uncertainty import Estimate
from planner.estimate.words import Words, words_of

GATE = "high-tier-gate"  # its name in the athlete's ``allow``
ANCHOR: tuple[str, Literal["both"]] = ("back-squat", "both")
NOT_FOR_THEM = "is high tier, which novices and youth do not do"


@dataclass(frozen=True)
class Gate:
    """What the gate asks of an athlete and what it found.

    ``squat_kg`` is None where none was tested. ``own_jump_open``: whether the jump off the run-up may be planned at
    full effort. ``weighs_error``: whether a squat within its test's error of what is asked counts as strong.
    """

    for_level: bool = True  # whether level and age allow a high tier at all
    lands: bool = True
    strong: bool = True
    own_jump_open: bool = True
    squat_kg: Estimate | None = None
    asked_kg: float = 0.0
    weighs_error: bool = False
    words: Words = field(default_factory=Words)

    @property
    def shock_open(self) -> bool:
        return self.for_level and self.lands and self.strong

    @property
    def decimals(self) -> int:
        """How many decimals tell the squat from what is asked."""
        return 1 if self.squat_kg is not None and abs(self.asked_kg - self.squat_kg.value) < 1 else 0

    def why_closed(self, movement: Movement) -> str | None:
        """Why this high-tier jump may not be planned, as the end of a sentence that begins with it; None if it may."""
        if self.shock_open or (self.own_jump_open and movement.part == "approach-jump"):
            return None
        if not self.for_level:
            return NOT_FOR_THEM
        if not self.lands:
            return "is high tier, and landings do not hold yet"
        asked = self.words.load(self.asked_kg, 0)
        return f"is high tier and requires a back squat of {asked}; it {self.squat_shows(0)}"

    def squat_shows(self, decimals: int) -> str:
        """``shows 122.5 kg (± 4 kg)``."""
        if self.squat_kg is None:
            return "is not tested"
        error = f" (± {self.words.load(self.squat_kg.se, 0)})" if self.squat_kg.se else ""
        return f"shows {self.words.load(self.squat_kg.value, decimals)}{error}"


def gate_of(athlete: Athlete, template: Template, level: LevelPlan, squat_kg: Estimate | None, youth: bool) -> Gate:
    """How far the high tier is open. ``squat_kg``: the tested maximum of the anchor lift; None: not tested."""
    gates = template.gates
    asked_kg = gates.high_tier_squat_body_mass * athlete.body_mass
    reach_kg = 0.0 if squat_kg is None else squat_kg.value + (gates.squat_errors or 0.0) * squat_kg.se
    allowed = any(allowance.rule == GATE for allowance in athlete.allow)
    for_level, lands = not youth and level.highest_tier == "high", athlete.landing == "holds"
    strong = allowed or reach_kg >= asked_kg
    return Gate(
        for_level=for_level,
        lands=lands,
        strong=strong,
        own_jump_open=for_level and lands and (strong or _does_it_already(athlete, template)),
        squat_kg=squat_kg,
        asked_kg=asked_kg,
        weighs_error=bool(gates.squat_errors),
        words=words_of(athlete),
    )


def _does_it_already(athlete: Athlete, template: Template) -> bool:
    enough, recent = template.gates.own_jump_recent_contacts, athlete.recent_load
    if enough is None or recent is None or athlete.approach.steps == 0:
        return False
    return (recent.weekly_high_contacts or 0) >= enough


def closed_words(gate: Gate, athlete: Athlete) -> str | None:
    """What is closed, by how much and what opens it, for gap, plan, overview and why; None where nothing is.

    Novices and youth have a sentence of their own.
    """
    if gate.shock_open or not gate.for_level:
        return None
    runs_up = athlete.approach.steps > 0
    too = ", and so is the maximal jump off the run-up" if runs_up and not gate.own_jump_open else ""
    said = f"Shock jumps, such as drop jumps, are closed{too}: {_short_of(gate)}."
    if runs_up and gate.own_jump_open:
        said += " The jump off the run-up stays open, since a usual week already holds it."
    return said


def _short_of(gate: Gate) -> str:
    short = [] if gate.lands else ["landings do not hold yet"]
    opens = [] if gate.lands else ["landings that hold"]
    if not gate.strong:
        short.append(f"the back squat {gate.squat_shows(gate.decimals)}")
        opens.append(f"a squat of {gate.words.load(gate.asked_kg, gate.decimals)}")
    verb = "opens" if len(opens) == 1 and gate.lands else "open"
    error = ", or one that comes within its test's error of it" if gate.weighs_error and not gate.strong else ""
    return f"{', and '.join(short)}; {' and '.join(opens)} {verb} them{error}"
