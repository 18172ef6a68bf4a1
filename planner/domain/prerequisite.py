"""What a movement asks of the athlete first: ``back-squat >= 1.5 body mass``."""

from __future__ import annotations

import re
from dataclasses import dataclass

from planner.units import Unreadable

_GRAMMAR = re.compile(
    r"(?P<lift>[a-z0-9]+(?:-[a-z0-9]+)*)\s*(?:>=|≥)\s*(?P<number>\d+(?:\.\d+)?)\s+body[ -]mass(?:es)?"
)


class RequirementError(Unreadable):
    """The text is not a requirement."""


@dataclass(frozen=True)
class Requirement:
    """The one-repetition maximum of ``lift`` is at least ``body_masses`` times the athlete's body mass."""

    lift: str
    body_masses: float

    def __str__(self) -> str:
        return f"{self.lift} >= {self.body_masses:g} body mass"


def parse_requirement(text: str) -> Requirement:
    """Read ``ID >= NUMBER body mass``. Raises RequirementError for anything else, and for 0 or more than 4."""
    match = _GRAMMAR.fullmatch(text.strip())
    if match is None:
        raise RequirementError(f"'{text}' is not a requirement", "write it like: back-squat >= 1.5 body mass")
    body_masses = float(match["number"])
    if not 0 < body_masses <= 4:
        raise RequirementError(f"{match['number']} body masses is outside 0 to 4", "check the number")
    return Requirement(match["lift"], body_masses)
