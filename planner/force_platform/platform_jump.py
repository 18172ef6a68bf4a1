"""What one jump on a platform tells."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from planner.estimate.uncertainty import Estimate
from planner.force_platform.verdict import HeightVerdict

JumpKind = Literal["countermovement", "squat", "drop"]
PhaseName = Literal["weighing", "unweighting", "braking", "propulsion", "contact", "flight", "landing"]


@dataclass(frozen=True)
class JumpPhase:
    """A stretch of the jump, times from the start of the record. ``net_impulse_Ns``: body weight taken off."""

    name: PhaseName
    start_s: float
    end_s: float
    mean_force_N: float
    peak_force_N: float
    net_impulse_Ns: float

    @property
    def duration_s(self) -> float:
        return self.end_s - self.start_s


@dataclass(frozen=True)
class SideLoad:
    """One of two platforms. Shares are of both together, over the weighing and over the push."""

    name: str
    share_of_weighing: float | None
    share_of_push: float
    share_of_landing: float | None
    peak_push_N: float


@dataclass(frozen=True)
class Dependence:
    """How a height moves when one choice of the analysis does. Values in metres, one for each of ``choices``."""

    what: str
    choices: tuple[str, ...]
    heights_m: tuple[float, ...]


@dataclass(frozen=True)
class WeighingQuality:
    seconds: float
    sd_N: float
    step_share: float


@dataclass(frozen=True)
class DropFigures:
    """Drop jumps only. Both reactive strength indices by name; ``fallen_m`` is the drop that the body really made."""

    contact_s: Estimate
    index_height_m_s: float
    index_flight: float
    fallen_m: float | None


@dataclass(frozen=True, kw_only=True)
class PlatformJump:
    """One jump. Forces have the zero offset taken off and include body weight; heights are rises after take-off.

    ``flight_s`` is from zero force to zero force: the time between the threshold's crossings
    (``flight_at_threshold_s``) less what the force spends under the threshold on the ground (``under_threshold_s``).
    """

    number: int
    kind: JumpKind
    rate_Hz: float
    body_weight_N: Estimate
    body_mass_kg: Estimate
    weighing: WeighingQuality | None
    offset_N: float
    noise_N: float
    threshold_N: float
    onset_s: float | None
    take_off_s: float
    landing_s: float
    flight_s: Estimate
    flight_at_threshold_s: float
    under_threshold_s: float
    rise_by_flight_m: Estimate
    rise_by_impulse_m: Estimate | None = None
    take_off_speed_m_s: Estimate
    peak_force_N: float
    mean_push_force_N: float
    peak_power_W: float | None = None
    mean_push_power_W: float | None = None
    time_to_take_off_s: float | None = None
    index_modified_m_s: float | None = None
    depth_m: float | None = None
    push_off_m: float | None = None
    drop: DropFigures | None = None
    phases: tuple[JumpPhase, ...]
    sides: tuple[SideLoad, ...]
    depends: tuple[Dependence, ...] = ()
    trace_start_s: float
    trace_N: Sequence[float]
    drift_N_s: Estimate | None = None  # of the zero line; None where nothing but the usual allowance is known
    weighed_after_s: float | None = None  # quiet standing after the landing that was used for weight and drift
    verdict: HeightVerdict
    landing_used: bool = False  # its impulse, back from that standing, tells the take-off speed as well

    @property
    def difference_m(self) -> Estimate | None:
        """Flight's height less impulse's. Their errors are taken as independent."""
        if self.rise_by_impulse_m is None:
            return None
        flight, impulse = self.rise_by_flight_m, self.rise_by_impulse_m
        return Estimate(flight.value - impulse.value, (flight.se**2 + impulse.se**2) ** 0.5)
