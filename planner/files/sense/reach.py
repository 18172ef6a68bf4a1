"""How templates can use a movement: which sessions have room for it, and which weeks have a wave for it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from planner.domain.findings import Finding
from planner.domain.movement import Movement
from planner.domain.movement_library import Library
from planner.domain.template import Shape, Template
from planner.domain.terms import LEVELS, PATTERNS, TIERS, Level, Tier
from planner.files.document import Loaded
from planner.files.suggest import did_you_mean


@dataclass(frozen=True)
class Use:
    """A template that can plan a movement: for which levels, in which sessions, in which weeks (from 1)."""

    template: str
    levels: tuple[Level, ...]
    shapes: tuple[str, ...]
    weeks: tuple[int, ...]


def use_by(movement: Movement, template: Template) -> Use | str:
    """How a template can plan a movement, or why it never does, as the end of a sentence."""
    scheme = template.schemes.get(movement.dose.scheme)
    if scheme is None:
        return f"has no scheme '{movement.dose.scheme}'"
    weeks = tuple(number for number, week in enumerate(scheme.weeks, start=1) if week.sets[1] > 0)
    if not weeks:
        return f"gives the scheme '{movement.dose.scheme}' no sets in any week"
    levels = tuple(level for level in LEVELS if level in template.levels and _open_to(movement, level, template))
    if not levels:
        return f"has no level that may do a movement of level {movement.level}{_tier(movement)}"
    rooms = [shape for shape in _planned_shapes(template) if _has_part(shape, movement)]
    if not rooms:
        return f"has no session with a part '{movement.part}' for it{_patterns(movement)}"
    shapes = [shape for shape in rooms if _within_tier(movement, shape.highest_tier)]
    if not shapes:
        return f"has no session of part '{movement.part}' that takes its tier"
    return Use(template.id, levels, tuple(shape.id for shape in shapes), weeks)


def reach_findings(loaded: Loaded[Library], templates: Sequence[Template]) -> list[Finding]:
    """Warnings for movements that no template can plan, on the line that is in the way."""
    if loaded.value is None or not templates:
        return []
    return [finding for movement in loaded.value for finding in _out_of_reach(movement, loaded, templates)]


def _out_of_reach(movement: Movement, loaded: Loaded[Library], templates: Sequence[Template]) -> Iterator[Finding]:
    whys: Mapping[str, Use | str] = {template.id: use_by(movement, template) for template in templates}
    if any(isinstance(why, Use) for why in whys.values()):
        return
    schemes = sorted({name for template in templates for name in template.schemes})
    scheme = movement.dose.scheme
    if scheme not in schemes:
        message = f"'{scheme}' is not a scheme of any template, so '{movement.id}' is never planned"
        hint = did_you_mean(scheme, schemes) or "add it under schemes of the template"
        yield loaded.finding((movement.id, "dose", "scheme"), "unknown-scheme", message, hint, level="warning")
        return
    alike = {one for m in loaded.require() if m.part == movement.part for one in m.patterns}
    if not movement.patterns and alike:
        message = f"'{movement.id}' has no patterns, so no template can plan it as {movement.part}"
        example = next(one for one in PATTERNS if one in alike)
        hint = f"add patterns: [{example}], or what it is: {', '.join(one for one in PATTERNS if one in alike)}"
        yield loaded.finding((movement.id, "part"), "out-of-reach", message, hint, level="warning")
        return
    named = "; ".join(f"'{name}' {why}" for name, why in list(whys.items())[:3])
    message = f"no template can plan '{movement.id}': {named}"
    hint = "compare part, patterns, level and tier with a movement that is planned, or widen a template's sessions"
    yield loaded.finding((movement.id, "part"), "out-of-reach", message, hint, level="warning")


def _open_to(movement: Movement, level: Level, template: Template) -> bool:
    known = LEVELS.index(movement.level) <= LEVELS.index(level)
    return known and _within_tier(movement, template.levels[level].highest_tier)


def _within_tier(movement: Movement, highest: Tier) -> bool:
    return movement.jump is None or TIERS.index(movement.jump.tier) <= TIERS.index(highest)


def _planned_shapes(template: Template) -> list[Shape]:
    named = {name for plan in template.day_plans for name in (*plan.shapes, *plan.test_week)}
    return [shape for shape in template.shapes if shape.id in named]


def _has_part(shape: Shape, movement: Movement) -> bool:
    return any(
        entry.part == movement.part
        and entry.items[1] > 0
        and (not entry.patterns or any(pattern in entry.patterns for pattern in movement.patterns))
        for entry in shape.parts
    )


def _tier(movement: Movement) -> str:
    return f" and tier {movement.jump.tier}" if movement.jump is not None else ""


def _patterns(movement: Movement) -> str:
    return f" (patterns: {', '.join(movement.patterns)})" if movement.patterns else ""
