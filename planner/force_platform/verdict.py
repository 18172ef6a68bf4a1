"""Which of a jump's two heights is believed, and why, where impulse and flight contradict each other."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from planner.domain.platform_rule import PlatformRule
from planner.estimate.uncertainty import Estimate

Believed = Literal["both", "impulse", "flight", "neither"]


@dataclass(frozen=True)
class HeightVerdict:
    """``why`` is a sentence without its full stop; empty where both heights are believed."""

    believed: Believed
    why: str = ""

    @property
    def in_words(self) -> str:
        """``the height by flight is believed, the one by impulse is not: ...``; empty where both are."""
        words = {
            "flight": "the height by flight is believed, the one by impulse is not",
            "impulse": "the height by impulse is believed, the one by flight is not",
            "neither": "neither height is believed",
        }
        return f"{words[self.believed]}: {self.why}" if self.why else ""

    @property
    def impulse(self) -> bool:
        return self.believed in ("both", "impulse")

    @property
    def flight(self) -> bool:
        return self.believed in ("both", "flight")


@dataclass(frozen=True)
class ImpulseBasis:
    """What the height by impulse rests on. ``long_stand``: a quiet stand of the usual length lies before the jump;
    ``two_sided``: the landing, back from a still stand after it, tells the same take-off speed."""

    rise_m: Estimate
    long_stand: bool
    two_sided: bool


def verdict_of(flight_m: Estimate, impulse: ImpulseBasis | None, rule: PlatformRule) -> HeightVerdict:
    """Their joint error holds how differently a body takes off and lands."""
    if impulse is None:
        return HeightVerdict("flight", "no still stand before the jump tells the speed at which the push began")
    trust = rule.trust
    rise, sure = impulse.rise_m, impulse.long_stand or impulse.two_sided
    more_m = flight_m.value - rise.value
    joint_m = (flight_m.se**2 + rise.se**2 + trust.posture_error**2) ** 0.5
    if abs(more_m) <= trust.contradict_over * joint_m:
        if rise.se <= trust.impulse_error_over:
            return HeightVerdict("both")
        return HeightVerdict("flight", f"the impulse tells the height to no better than ± {100 * rise.se:.1f} cm")
    differ = f"flight reads {100 * abs(more_m):.1f} cm {'more' if more_m > 0 else 'less'} than impulse"
    if not sure:
        why = f"{differ}, and the standing before the jump is too short or too restless to weigh"
        return HeightVerdict("flight", why)
    if 0 < more_m <= trust.bent_landing_up_to:
        two = "both sides of the flight tell the same impulse" if impulse.two_sided else "the standing weighs well"
        return HeightVerdict("impulse", f"{differ}: {two}, while landing with bent legs lengthens the flight")
    return HeightVerdict("neither", f"{differ}, more than landing with bent legs or the errors of the record explain")
