"""What the force is taken over: the contact of a run-up jump or the push-off of a standing one, measured or assumed."""

from __future__ import annotations

from dataclasses import dataclass

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import Benchmarks
from planner.estimate.contact import measured_contact
from planner.estimate.notebook import Notebook
from planner.estimate.present_jump import basis_of, is_off_run_up
from planner.estimate.push_off import measured_push_off
from planner.estimate.touch_down import Fall, fall_of
from planner.estimate.uncertainty import Estimate
from planner.estimate.words import words_of


@dataclass(frozen=True)
class TakenContact:
    """The contact time, or the push-off distance of a jump from a stand, and where it came from. One is None."""

    time_s: Estimate | None
    push_off_m: Estimate | None
    described: str
    fall: Fall | None = None


def taken_contact(athlete: Athlete, benchmarks: Benchmarks, notes: Notebook) -> TakenContact:
    basis = basis_of(athlete, benchmarks)
    if not is_off_run_up(athlete):
        on_platform = measured_push_off(athlete, benchmarks)
        if on_platform is not None:
            return TakenContact(None, on_platform.distance_m, on_platform.described)
        share = basis.push_off.share_of_stature
        distance = Estimate(share * athlete.stature, basis.push_off.standard_error)
        described = f"push-off distance {share:.2f} × stature, an estimate"
        message = (
            f"a jump from a stand: force is taken over a push-off of {words_of(athlete).length(distance.value, 0)} "
            f"({share:.2f} × stature, ± {words_of(athlete).length(distance.se, 0)}), not measured"
        )
        notes.add("note", "push-off-estimate", message)
        return TakenContact(None, distance, described)
    measured, fall = measured_contact(athlete, benchmarks, notes), fall_of(athlete, benchmarks.touch_down)
    if measured is not None:
        return TakenContact(measured.time_s, None, measured.described, fall)
    stand_in = basis.contact
    message = (
        f"no contact time of the take-off: {stand_in.value:.2f} ± {stand_in.standard_error:.2f} s is assumed, so the "
        "forces are rough (their difference less so)"
    )
    hint = "film the take-off at 240 frames a second and add a contact-time test"
    notes.add("warning", "no-contact-time", message, hint=hint)
    assumed = Estimate(stand_in.value, stand_in.standard_error)
    return TakenContact(assumed, None, f"{stand_in.value:.2f} s, an estimate", fall)
