"""Ground contacts of a retest against those of before: whether jumps got harder or only slower."""

from __future__ import annotations

from collections.abc import Mapping

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import Benchmarks
from planner.domain.measure import DropJumpTest
from planner.estimate.contact import measured_contact
from planner.estimate.notebook import Notebook
from planner.estimate.trials import middle

TAKE_OFF, DROP_JUMP = "take-off", "drop jump"


def tested_contacts_s(athlete: Athlete, benchmarks: Benchmarks) -> dict[str, float]:
    """Contact in seconds of the target's take-off, and of the latest drop jump by the height of its box in metres."""
    found: dict[str, float] = {}
    for test in sorted((one for one in athlete.tests if isinstance(one, DropJumpTest)), key=lambda one: one.date):
        found[f"{DROP_JUMP} {test.drop:g}"] = middle([trial.contact for trial in test.trials])
    contact = measured_contact(athlete, benchmarks, Notebook())
    return found if contact is None else {TAKE_OFF: contact.time_s.value, **found}


def longer_percent(before: Mapping[str, float], after: Mapping[str, float], kind: str) -> float | None:
    """By how much the contact of this kind is longer after than before, the worst of its tests; None if not tested."""
    pairs = [(before[name], after[name]) for name in before if name.startswith(kind) and name in after]
    return max((100 * (now / then - 1) for then, now in pairs), default=None)
