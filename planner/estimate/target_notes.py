"""Findings about the target: it is the present jump, below it, or outside the benchmark curves."""

from __future__ import annotations

from planner.domain.benchmarks import Benchmarks
from planner.estimate.force_gap import ForceGap
from planner.estimate.notebook import Notebook
from planner.estimate.present_jump import Jumps
from planner.estimate.words import Words


def note_target(jumps: Jumps, words: Words, notes: Notebook) -> None:
    gain_m = jumps.gain_wanted_m
    if abs(gain_m) <= jumps.resolution_m / 2:
        notes.add("note", "maintenance", "the target is the present jump: the block maintains", at=("target",))
    elif gain_m < 0:
        message = f"the target is {words.length(-gain_m)} below the present jump"
        hint = "raise the target, or check the trials"
        notes.add("warning", "target-below-present", message, hint=hint, at=("target",))


def note_outside(force: ForceGap, benchmarks: Benchmarks, notes: Notebook) -> None:
    axis = benchmarks.axis
    message = (
        f"the target's mean ground force, {force.target.mean_ground_force_bw.value:.2f} body weights, is outside the "
        f"benchmark curves ({axis.low:g} to {axis.high:g} on their axis): needs are read at its end"
    )
    notes.add("warning", "outside-curves", message, hint="check contact time, body mass and target")
