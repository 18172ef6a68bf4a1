"""An item in the words of its card: sets and reps, load, effort, rest. No drawing here."""

from __future__ import annotations

from dataclasses import dataclass

from planner.domain.block import HALF_IN_EACH_HAND, AthleteLine, Item
from planner.domain.card_layout import CardLayout
from planner.prescription.iron import build, stamped_in
from planner.prescription.iron_words import bar, how_built, stamped_mass
from planner.prescription.tally import is_working_set
from planner.units import format_height, format_mass, format_run

TIMES = "×"


@dataclass(frozen=True)
class ItemWords:
    """What a card prints for an item. ``load``: a mass, or the height of a drop, box or hurdle, or empty.

    ``load_to_find``: the athlete finds the load by effort, so the card prints these words and a line to write it on;
    ``load`` is then only the unit. ``built``: what to put on the bar, or a second height. ``boxes``: one for each set,
    or for each trial of a test. ``weaker``: that one leg goes first, with an extra set.
    """

    dose: str
    side: str
    load: str
    load_to_find: str
    built: str
    effort: str
    details: tuple[str, ...]
    weaker: str
    note: str
    boxes: int


def mass(mass_kg: float, athlete: AthleteLine) -> str:
    """A load as the gym reads it. The block has already rounded it: the digits only absorb the unit conversion."""
    return format_mass(mass_kg, athlete.mass_unit, 2 if athlete.mass_unit == "kg" else 1)


def height(height_m: float, athlete: AthleteLine) -> str:
    return format_height(height_m, athlete.length_unit)


def rest(rest_s: int) -> str:
    """A rest as a coach says it: to 5 s, to 15 s from 45 s on, to half a minute beyond 90 s (``2½ min``)."""
    if rest_s <= 90:
        step = 15 if rest_s >= 45 else 5
        return f"{step * round(rest_s / step)} s"
    halves = round(rest_s / 30)
    return f"{halves // 2}{'½' if halves % 2 else ''} min"


def percent(value: float) -> str:
    """A percentage to the nearest half: the load is rounded to the plates anyway."""
    return f"{round(2 * value) / 2:g}"


def prescribe(item: Item, athlete: AthleteLine, layout: CardLayout) -> ItemWords:
    """Put an item of one or more sets into words."""
    load, to_find = _load(item, athlete, layout)
    heights = _heights(item, athlete, layout)
    if heights and not load and not to_find:
        load, *heights = heights
    return ItemWords(
        dose=_dose(item, athlete, layout),
        side=_side(item, layout),
        load=load,
        load_to_find=to_find,
        built=", ".join(filter(None, (how_built(item, athlete, layout), *heights))),
        effort=_effort(item, layout),
        details=_details(item, athlete, layout),
        weaker=_weaker(item, layout),
        note=_note(item),
        boxes=_boxes(item),
    )


def _dose(item: Item, athlete: AthleteLine, layout: CardLayout) -> str:
    parts = [str(item.sets)]
    # Sprints are one effort a set and holds one hold a set: the 1 goes without saying.
    if item.reps is not None and not (item.reps == 1 and (item.distance_m or item.hold_s)):
        parts.append(str(item.reps))
    if item.distance_m:
        parts.append(format_run(item.distance_m, athlete.length_unit))
    if item.hold_s:
        parts.append(f"{item.hold_s} s")
    return f" {TIMES} ".join(parts) if len(parts) > 1 else f"{parts[0]} {layout.words.sets}"


def _side(item: Item, layout: CardLayout) -> str:
    words = layout.words
    each = words.each_side if item.part == "trunk" else words.each_leg
    return {"both": "", "each": each, "left": words.left, "right": words.right}[item.side]


def _load(item: Item, athlete: AthleteLine, layout: CardLayout) -> tuple[str, str]:
    """The load and no words; or its unit and the words before the line to write it on."""
    words = layout.words
    if item.load_kg is not None and item.load_kg > 0:
        return _given_load(item, item.load_kg, athlete), ""
    if not is_to_find(item, layout):
        return "", ""
    if item.implement == "free":  # bands, bags: not all have a mass
        return "", words.load_free
    return athlete.mass_unit, words.load_each_hand if item.implement == "pair-of-dumbbells" else words.load


def _heights(item: Item, athlete: AthleteLine, layout: CardLayout) -> list[str]:
    """What to step off, then what to jump onto or over: ``drop 30 cm``, ``hurdle 50 cm``."""
    words = layout.words
    said = [f"{words.drop} {height(item.drop_m, athlete)}"] if item.drop_m else []
    if item.height_m:
        of = {"box": words.box, "hurdle": words.hurdle, None: words.height}[item.height_of]
        said.append(f"{of} {height(item.height_m, athlete)}")
    return said


def _given_load(item: Item, load_kg: float, athlete: AthleteLine) -> str:
    """What the athlete picks up: a pair of dumbbells is two masses (``20 + 20 kg``), any other load one."""
    built = build(item, athlete.gym, load_kg)
    if built is not None and len(built.dumbbells_kg) > 1 and stamped_in(athlete) == athlete.mass_unit:
        return stamped_mass(built.dumbbells_kg, athlete)
    return mass(load_kg, athlete)


def is_to_find(item: Item, layout: CardLayout) -> bool:
    """Whether the movement takes a load but none is given. A note that opens with "body weight" means no load.

    A block that does not say what loads are built from shows it by an effort and a note on how to find the load.
    """
    note = item.note or ""
    if item.implement is not None:
        takes_one = is_working_set(item) and item.load_kg is None
        return takes_one and not note.lower().startswith(layout.words.body_weight.lower())
    by_effort = is_working_set(item) and item.load_kg is None and item.reps_in_reserve is not None and not item.hold_s
    return by_effort and bool(note) and not note.lower().startswith(layout.words.body_weight.lower())


def _effort(item: Item, layout: CardLayout) -> str:
    reserve = item.reps_in_reserve
    if reserve is None:
        return ""
    if reserve > layout.easy_above:
        return layout.words.easy
    return f"{reserve} {layout.words.one_in_reserve if reserve == 1 else layout.words.in_reserve}"


def _details(item: Item, athlete: AthleteLine, layout: CardLayout) -> tuple[str, ...]:
    words, details = layout.words, []
    by_body_weight = is_working_set(item) and not item.load_kg and not is_to_find(item, layout)
    # A note may open with the same words: do not print them twice.
    if by_body_weight and not (item.note or "").lower().startswith(words.body_weight.lower()):
        details.append(words.body_weight)
    if item.fly_in_m:
        details.append(f"{format_run(item.fly_in_m, athlete.length_unit)} {words.fly_in}")
    if item.rest_s:
        details.append(f"{words.rest} {rest(item.rest_s)}")
    if item.percent is not None:
        details.append(f"{percent(item.percent)} {words.of_max_with_body if item.percent_with_body else words.of_max}")
    if item.contacts:
        tier = f", {layout.tiers[item.tier]}" if item.tier else ""
        details.append(f"{item.contacts} {words.contacts}{tier}")
    if on_bar := bar(item, athlete, layout):
        details.append(on_bar)
    return tuple(details)


def _weaker(item: Item, layout: CardLayout) -> str:
    """What the weaker leg does: ``left leg first, 4 sets``; empty if both do the same."""
    if item.extra_set is None:
        return ""
    leg = layout.words.left if item.extra_set == "left" else layout.words.right
    return f"{leg} {layout.words.goes_first}, {item.sets + 1} {layout.words.sets}"


def _note(item: Item) -> str:
    """The block's note, unless the card's load already shows the same."""
    note = item.note or ""
    return "" if note == HALF_IN_EACH_HAND and item.implement == "pair-of-dumbbells" else note


def _boxes(item: Item) -> int:
    """One box a set, including a weaker leg's extra set.

    A test has one box a repetition, because every trial is written down.
    """
    return item.sets * (item.reps or 1) if item.part == "test" else item.sets + bool(item.extra_set)
