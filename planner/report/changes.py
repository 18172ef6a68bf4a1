"""What changed from one block to another, in a coach's words."""

from __future__ import annotations

from planner.domain.block import Block, Item
from planner.units import format_mass


def changes(old: Block, new: Block) -> list[str]:
    """Movements in and out by phase and weekday, then sets by week; an empty list if nothing changed."""
    return [*_movements(old, new), *_sets(old, new)]


def _movements(old: Block, new: Block) -> list[str]:
    before, after = _chosen(old), _chosen(new)
    found = []
    for key in sorted({*before, *after}, key=lambda k: (k[0], "MonTueWedThuFriSatSun".index(k[1]))):
        out = [name for movement, name in before.get(key, {}).items() if movement not in after.get(key, {})]
        into = [name for movement, name in after.get(key, {}).items() if movement not in before.get(key, {})]
        if out or into:
            said = [f"{', '.join(out)} out" if out else "", f"{', '.join(into)} in" if into else ""]
            found.append(f"{key[0]}, {key[1]}: {'; '.join(part for part in said if part)}")
    return found


def _chosen(block: Block) -> dict[tuple[str, str], dict[str, str]]:
    """Movement id -> name, by phase and weekday."""
    found: dict[tuple[str, str], dict[str, str]] = {}
    for week in block.weeks:
        for session in week.sessions:
            day = found.setdefault((week.phase, f"{session.date:%a}"), {})
            day.update({item.movement: item.name for item in session.items})
    return found


def _sets(old: Block, new: Block) -> list[str]:
    before, after = _items(old), _items(new)
    found = []
    for key, item in after.items():
        earlier = before.get(key)
        if earlier is not None and earlier.sets != item.sets:
            found.append(f"week {key[0]}, {key[1]}: {item.name} {earlier.sets} -> {item.sets} sets")
        elif earlier is not None and earlier.load_kg != item.load_kg:
            found.append(f"week {key[0]}, {key[1]}: {item.name} {_load(earlier, new)} -> {_load(item, new)}")
        if earlier is not None and earlier.extra_set != item.extra_set and earlier.sets and item.sets:
            found.append(f"week {key[0]}, {key[1]}: {item.name} {_extra(earlier)} -> {_extra(item)}")
    return found


def _items(block: Block) -> dict[tuple[int, str, str], Item]:
    return {
        (week.number, f"{session.date:%a}", item.movement): item
        for week in block.weeks
        for session in week.sessions
        for item in session.items
    }


def _extra(item: Item) -> str:
    return f"an extra set for the {item.extra_set} leg" if item.extra_set else "no extra set"


def _load(item: Item, block: Block) -> str:
    return "load to find" if item.load_kg is None else format_mass(item.load_kg, block.for_athlete.mass_unit, 2)
