"""The lighter sets before the first main lift: a share of the working load, rounded to what is quick to load."""

from __future__ import annotations

from planner.cards.prescription import mass
from planner.domain.block import AthleteLine, Item
from planner.domain.card_layout import CardLayout


def ramp_line(item: Item, athlete: AthleteLine, layout: CardLayout) -> str:
    """``5 at 50 kg · 3 at 70 kg``; empty without a load. A step that rounds to the working load is left out."""
    if not item.load_kg or item.percent is None:
        return ""
    step = layout.ramp.round_to_kg if athlete.mass_unit == "kg" else layout.ramp.round_to_lb
    said, last_kg = [], 0.0
    for ramp in layout.ramp.sets:
        load_kg = round(item.load_kg * ramp.share / step) * step
        if last_kg < load_kg < item.load_kg:
            said.append(f"{ramp.reps} {layout.words.at} {mass(load_kg, athlete)}")
            last_kg = load_kg
    return " · ".join(said)
