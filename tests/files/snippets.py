"""Small files to break: an athlete's that is right, and ways to change one line of it."""

from __future__ import annotations

from planner.domain.findings import Finding
from planner.files.load import load_bytes, then
from planner.files.sense.athlete_sense import athlete_sense

ATHLETE = """\
file: athlete/1
name: Nora Weiss
birth_date: 2002-03-04
body_mass: 71.4 kg
stature: 5 ft 11 in
standing_reach: 2.35 m
tip_toe_reach: 2.46 m
take_off: two-leg
approach: {steps: 0}
level: intermediate
training_age_years: 3
training:
  days:
    - {day: mon, minutes: 60}
    - {day: thu, minutes: 75, own_work_minutes: 15}
landing: holds
practices:
  - {day: tue, minutes: 90, contacts: 60}
target:
  touch: 3.00 m
  method: touch
tests:
  - kind: touch
    date: 2025-03-01
    take_off: two-leg
    run_up: false
    trials: [2.90 m, 2.91 m]
  - {kind: lift, date: 2025-03-01, movement: back-squat, load: 100 kg, reps: 5}
"""


def changed(old: str, new: str, text: str = ATHLETE) -> tuple[str, int]:
    """The text with ``old`` (which must stand there once) replaced, and the line it stood on."""
    assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times"
    return text.replace(old, new), text[: text.index(old)].count("\n") + 1


def findings_of(text: str | bytes) -> tuple[Finding, ...]:
    """All findings on an athlete's file, without a library."""
    raw = text.encode() if isinstance(text, str) else text
    return then(load_bytes(raw, "nora.yaml"), athlete_sense).findings  # type: ignore[arg-type]


def places(text: str | bytes) -> list[tuple[str, int]]:
    """(code, line) of every finding."""
    return [(finding.code, finding.line) for finding in findings_of(text)]
