"""Every check, in the order of the points that they stand for."""

from __future__ import annotations

from types import ModuleType

from tests.coach.checking import Check
from tests.coach.checks import (
    days,
    emphasis,
    gate,
    hamstrings,
    jump_intensity,
    main_lifts,
    novices,
    retest,
    sentences,
    sprints,
    taper_and_steps,
    target_jump,
    unloaded,
    warm_ups,
)

MODULES: tuple[ModuleType, ...] = (
    main_lifts, novices, unloaded, gate, target_jump, sprints, jump_intensity, emphasis, hamstrings, sentences, days,
    retest, taper_and_steps, warm_ups,
)  # fmt: skip


def all_checks() -> list[Check]:
    found = [one for module in MODULES for one in vars(module).values() if isinstance(one, Check)]
    return sorted(found, key=lambda one: (not one.must, int(one.point) if one.must else 0))
