"""What makes a jump's heights doubtful besides each other: another body mass, a push-off that no body makes."""

from __future__ import annotations

from planner.domain.platform_rule import PlatformRule
from planner.estimate.notebook import Notebook
from planner.estimate.uncertainty import Estimate
from planner.force_platform.force_record import ForceRecord
from planner.force_platform.verdict import HeightVerdict
from planner.units import STANDARD_GRAVITY_m_s2 as g


def doubt_body_mass(
    verdict: HeightVerdict, weight: Estimate, body_mass_kg: float | None, rule: PlatformRule, notes: Notebook
) -> HeightVerdict:
    """A body mass that was given and that the standing contradicts: then the impulse is not believed."""
    if body_mass_kg is None or abs(weight.value / g - body_mass_kg) <= rule.mass_differs_over * body_mass_kg:
        return verdict
    said = f"the record weighs {weight.value / g:.1f} ± {weight.se / g:.1f} kg, --body-mass says {body_mass_kg:.1f} kg"
    notes.add("warning", "body-mass-differs", said, hint="check --body-mass, --unit, and that both feet were on")
    return HeightVerdict("flight" if verdict.flight else "neither", said)


def doubt_push_off(
    verdict: HeightVerdict, push_off_m: float, record: ForceRecord, rule: PlatformRule, notes: Notebook
) -> HeightVerdict:
    """A push-off shorter or longer than any body's: times are wrong, and both heights with them.

    Nothing else of the record tells that: at a wrong rate every length, both heights among them, grows with the square
    of the time step, so that impulse and flight agree as before.
    """
    if rule.trust.push_off_from <= push_off_m <= rule.trust.push_off_to:
        return verdict
    option = "--rate" if record.rate_stated else "--time"
    said = (
        f"the body would rise {100 * push_off_m:.0f} cm from its lowest point to take-off, where "
        f"{100 * rule.trust.push_off_from:.0f} to {100 * rule.trust.push_off_to:.0f} cm are usual: {record.rate_Hz:g} "
        "samples a second may be wrong, and both heights with it"
    )
    usual_m = (rule.trust.push_off_from * rule.trust.push_off_to) ** 0.5
    likely_Hz = record.rate_Hz * (push_off_m / usual_m) ** 0.5 if push_off_m > 0 else 0.0
    hint = f"check the samples a second ({option}); about {likely_Hz:,.0f} would make it {100 * usual_m:.0f} cm"
    notes.add("warning", "rate-doubted", said, hint=hint)
    return HeightVerdict("neither", said)


def note_believed(verdict: HeightVerdict, notes: Notebook) -> None:
    """Says which height is believed where it is not both."""
    if verdict.why:
        notes.add("warning", "believed", verdict.in_words)
