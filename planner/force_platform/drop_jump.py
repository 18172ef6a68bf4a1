"""A drop jump on a platform: contact, flight, both reactive strength indices; the height comes from the flight."""

from __future__ import annotations

import numpy as np

from planner.estimate.flight_rise import rise_by_flight
from planner.estimate.notebook import Notebook
from planner.estimate.take_off import reactive_index_flight, reactive_index_height_m_s
from planner.estimate.uncertainty import Estimate
from planner.force_platform import record_faults
from planner.force_platform.edges import Edge
from planner.force_platform.flight_and_sides import drawn, flight_of, side_loads
from planner.force_platform.jump_case import Case
from planner.force_platform.jump_phases import PhaseMaker
from planner.force_platform.platform_jump import DropFigures, PlatformJump, WeighingQuality
from planner.force_platform.verdict import HeightVerdict
from planner.force_platform.weighing import Weighing, weigh_after
from planner.units import STANDARD_GRAVITY_m_s2 as g


def drop_jump(case: Case, notes: Notebook) -> PlatformJump | None:
    """One drop jump; None with errors in ``notes`` where the body's weight is not known."""
    force, rate, rule, air = case.force_N, case.rate_Hz, case.rule, case.air
    contact_start = case.contact_start
    settled = air.end + round(rule.settled_after * rate)
    more = settled < case.next_contact_end
    standing = weigh_after(force, rate, rule, settled, case.next_contact_end) if more else None
    weight = _weight(standing, case, notes)
    if weight is None:
        return None
    record_faults.body_weight(weight.value, notes)
    record_faults.missing_samples(case.missing, rate, contact_start, case.just_landed, notes)
    record_faults.clipping(case, weight.value, (contact_start, air.start), notes)
    if notes.has_errors:
        return None
    return _figures(case, standing, weight, notes)


def _figures(case: Case, standing: Weighing | None, weight: Estimate, notes: Notebook) -> PlatformJump:
    """All figures of a drop jump that was found sound."""
    rate, air, contact_start = case.rate_Hz, case.air, case.contact_start
    force = case.force_N - air.offset_N
    before = next((one for one in case.others if one.end == contact_start), None)
    touch = before.after if before else Edge(0.0, 0.0)
    flight, crossing, under = flight_of(air, rate)
    contact_s = (air.start - contact_start) / rate + touch.under_s + air.before.under_s
    contact = Estimate(contact_s, float(np.hypot(touch.se_s, air.before.se_s)))
    pushed = force[contact_start : air.start]
    leaving = g * flight.value / 2.0
    impulse = (float(np.sum(pushed)) / rate - weight.value * contact_s) * g / weight.value
    landing_speed = impulse - leaving
    maker = PhaseMaker(force, rate, weight.value)
    landing_end = maker.landing_end(air.end, leaving)
    trace_start, trace = drawn(force, rate, contact_start, landing_end)
    return PlatformJump(
        number=case.number,
        kind=case.kind,
        rate_Hz=rate,
        body_weight_N=weight,
        body_mass_kg=Estimate(weight.value / g, weight.se / g),
        weighing=WeighingQuality(standing.seconds, standing.sd_N, standing.step_share) if standing else None,
        offset_N=air.offset_N,
        noise_N=air.noise_N,
        threshold_N=air.threshold_N,
        onset_s=(contact_start - 0.5) / rate - touch.under_s,
        take_off_s=(air.start - 0.5) / rate + air.before.under_s,
        landing_s=(air.end - 0.5) / rate - air.after.under_s,
        flight_s=flight,
        flight_at_threshold_s=crossing,
        under_threshold_s=under,
        rise_by_flight_m=rise_by_flight(flight),
        take_off_speed_m_s=Estimate(leaving, g * flight.se / 2.0),
        peak_force_N=float(np.max(pushed)),
        mean_push_force_N=float(np.mean(pushed)),
        drop=DropFigures(
            contact,
            reactive_index_height_m_s(contact_time_s=contact_s, flight_time_s=flight.value),
            reactive_index_flight(contact_time_s=contact_s, flight_time_s=flight.value),
            landing_speed**2 / (2.0 * g) if landing_speed > 0 else None,
        ),
        phases=(
            maker.phase("contact", contact_start, air.start),
            maker.phase("flight", air.start, air.end),
            maker.phase("landing", air.end, landing_end),
        ),
        sides=side_loads(case, (contact_start, air.start), standing, landing_end, notes),
        trace_start_s=trace_start,
        trace_N=trace,
        verdict=HeightVerdict("flight"),  # no impulse tells its height
    )


def _weight(standing: Weighing | None, case: Case, notes: Notebook) -> Estimate | None:
    """Body mass as given, else the quiet standing after the landing; the drift since the flight may be in it."""
    rule, air = case.rule, case.air
    if case.options.body_mass_kg is not None:
        return Estimate(case.options.body_mass_kg * g, rule.given_mass_error * g)
    quiet = standing is not None and standing.sd_N <= rule.noisy_over * standing.mean_N
    if standing is None or not quiet:
        notes.add(
            "error",
            "no-weighing",
            "body weight is not known: a drop jump has no standing before it, and no quiet second follows the landing",
            hint="give it with --body-mass, or stand still for two seconds after the landing",
        )
        return None
    drift = rule.drift_N_s * ((standing.start + standing.end) / 2.0 - air.middle) / case.rate_Hz
    return Estimate(standing.mean_N - air.offset_N, float(np.sqrt(standing.se_N**2 + air.offset_se_N**2 + drift**2)))
