"""Movements on another wave than their own, for athletes whom that wave does not fit."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Collection, Mapping

from planner.domain.movement import Movement
from planner.domain.movement_library import Library
from planner.domain.template import Template
from planner.domain.terms import LEVELS


def with_known_lifts(library: Library, template: Template, tested: Collection[str]) -> Library:
    """The library as a novice sees it: each tested lift above their level is a novice's, on the wave named for it.

    Without it a strong junior, who squats with a bar, would get a squat without a load. A lift whose wave the template
    does not name stays closed.
    """
    opened = _on_waves(
        library,
        template.youth.waves_of_tested_lifts,
        lambda movement: movement.id in tested and movement.level != LEVELS[0],
    )
    novice = {name: m.model_copy(update={"level": LEVELS[0]}) for name, m in opened.items()}
    return dataclasses.replace(library, movements={**library.movements, **novice}) if novice else library


def with_kept_strength(library: Library, template: Template) -> Library:
    """The library of an athlete who is surely strong enough: lifts that are only kept, few sets at a heavy load."""
    kept = _on_waves(library, template.maintenance_waves, lambda _: True)
    return dataclasses.replace(library, movements={**library.movements, **kept}) if kept else library


def _on_waves(library: Library, waves: Mapping[str, str], fits: Callable[[Movement], bool]) -> dict[str, Movement]:
    return {
        movement.id: movement.model_copy(
            update={"dose": movement.dose.model_copy(update={"scheme": waves[movement.dose.scheme]})}
        )
        for movement in library
        if movement.dose.scheme in waves and fits(movement)
    }
