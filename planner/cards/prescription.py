"""An item in the words of its card: sets and reps, load, effort, rest. No drawing here."""

from __future__ import annotations

from dataclasses import dataclass

from planner.cards.tally import is_working_set
from planner.domain.block import AthleteLine, Item
from planner.domain.card_layout import CardLayout
from planner.units import format_length, format_mass

TIMES = "×"


@dataclass(frozen=True)
class Prescription:
    """What a card prints of an item. ``load``: a mass, or the height of a box or hurdle, or empty.

    ``load_to_find``: the load is the athlete's to find by effort, so the card gives a line to write it on and ``load``
    is only its unit. ``boxes``: one for each set done, or for each trial of a test.
    """

    dose: str
    side: str
    load: str
    load_to_find: bool
    effort: str
    details: tuple[str, ...]
    boxes: int


def mass(mass_kg: float, athlete: AthleteLine) -> str:
    """A load as the gym reads it. The block has rounded it already: digits only absorb the conversion."""
    return format_mass(mass_kg, athlete.mass_unit, 2 if athlete.mass_unit == "kg" else 1)


def height(height_m: float, athlete: AthleteLine) -> str:
    return format_length(height_m, athlete.length_unit, 0 if athlete.length_unit == "cm" else 1)


def rest(rest_s: int) -> str:
    """As a coach says it, nobody rests to the second: to 5 s up to 90 s, then to half a minute (``2½ min``)."""
    if rest_s <= 90:
        return f"{5 * round(rest_s / 5)} s"
    halves = round(rest_s / 30)
    return f"{halves // 2}{'½' if halves % 2 else ''} min"


def percent(value: float) -> str:
    """To half a percent: a load is rounded to the plates anyway."""
    return f"{round(2 * value) / 2:g}"


def prescribe(item: Item, athlete: AthleteLine, layout: CardLayout) -> Prescription:
    """Put an item of 1 or more sets into words."""
    load, to_find = _load(item, athlete, layout)
    return Prescription(
        dose=_dose(item, layout),
        side=_side(item, layout),
        load=load,
        load_to_find=to_find,
        effort=_effort(item, layout),
        details=_details(item, layout),
        boxes=_boxes(item),
    )


def _dose(item: Item, layout: CardLayout) -> str:
    parts = [str(item.sets)]
    # One effort a set is the rule of sprints, and one hold a set of holds: the 1 is left unsaid.
    if item.reps is not None and not (item.reps == 1 and (item.distance_m or item.hold_s)):
        parts.append(str(item.reps))
    if item.distance_m:
        parts.append(format_length(item.distance_m, "m", 1))
    if item.hold_s:
        parts.append(f"{item.hold_s} s")
    return f" {TIMES} ".join(parts) if len(parts) > 1 else f"{parts[0]} {layout.words.sets}"


def _side(item: Item, layout: CardLayout) -> str:
    words = layout.words
    each = words.each_side if item.part == "trunk" else words.each_leg
    return {"both": "", "each": each, "left": words.left, "right": words.right}[item.side]


def _load(item: Item, athlete: AthleteLine, layout: CardLayout) -> tuple[str, bool]:
    if item.load_kg is not None and item.load_kg > 0:
        return mass(item.load_kg, athlete), False
    if item.height_m:
        return f"{layout.words.height} {height(item.height_m, athlete)}", False
    return (athlete.mass_unit, True) if _is_to_find(item, layout) else ("", False)


def _is_to_find(item: Item, layout: CardLayout) -> bool:
    """No load, an effort, and a note on how to find it; a note that opens with "body weight" says there is none."""
    note = item.note or ""
    by_effort = is_working_set(item) and item.load_kg is None and item.reps_in_reserve is not None and not item.hold_s
    return by_effort and bool(note) and not note.lower().startswith(layout.words.body_weight.lower())


def _effort(item: Item, layout: CardLayout) -> str:
    reserve = item.reps_in_reserve
    if reserve is None:
        return ""
    return layout.words.easy if reserve > layout.easy_above else f"{reserve} {layout.words.in_reserve}"


def _details(item: Item, layout: CardLayout) -> tuple[str, ...]:
    words, details = layout.words, []
    if is_working_set(item) and not item.load_kg and not _is_to_find(item, layout):
        details.append(words.body_weight)
    if item.rest_s:
        details.append(f"{words.rest} {rest(item.rest_s)}")
    if item.percent is not None:
        details.append(f"{percent(item.percent)} {words.of_max}")
    if item.contacts:
        tier = f", {layout.tiers[item.tier]}" if item.tier else ""
        details.append(f"{item.contacts} {words.contacts}{tier}")
    return tuple(details)


def _boxes(item: Item) -> int:
    """A box a set. Every trial of a test is written down, so there it is a box a repetition."""
    return item.sets * (item.reps or 1) if item.part == "test" else item.sets
