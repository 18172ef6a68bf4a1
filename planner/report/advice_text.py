"""Load advice in a coach's words: what to take, and always what it rests on."""

from __future__ import annotations

from planner.domain.block import AthleteLine
from planner.past.load_advice import LoadAdvice
from planner.prescription.item_words import mass


def last_time(advice: LoadAdvice, athlete: AthleteLine) -> str:
    """``last time 110 kg × 6 with 5 left, 4 planned``."""
    last = advice.last
    load = mass(last.done.load_kg or 0.0, athlete)
    parts = [f"last time {load} × {last.done.reps}"]
    if last.left is not None:
        parts[0] += f" with {last.left} left"
    if last.planned.reps_in_reserve is not None and last.left != last.planned.reps_in_reserve:
        parts.append(f"{last.planned.reps_in_reserve} planned")
    if last.reps_missed:
        parts.append(f"{last.reps_missed} rep{'s' if last.reps_missed > 1 else ''} short")
    return ", ".join(parts)


def take(advice: LoadAdvice, athlete: AthleteLine) -> str:
    """``115 kg (112.5 kg planned)``, ``112.5 kg, one rep more``, ``112.5 kg as planned``."""
    load = mass(advice.load_kg, athlete)
    planned = None if advice.item.load_kg is None else mass(advice.item.load_kg, athlete)
    more = ", one rep more" if advice.move == "one-rep-more" else ""
    if planned is None:
        return f"{load}{more} (to find)"
    return f"{load}{more} ({planned} planned)" if load != planned else f"{load}{more or ' as planned'}"


def advice_line(advice: LoadAdvice, athlete: AthleteLine) -> str:
    held = f"; {advice.why_held}" if advice.why_held else ""
    return f"{take(advice, athlete)}: {last_time(advice, athlete)}{held}"
