"""Frames of a video: contacts and flights in seconds, with what cannot be right refused.

An event lies somewhere in the frame before the one in which it is first seen. Two such events make a time wrong by at
most one frame either way; as a triangle of that width its standard deviation is 1 / (rate x sqrt 6).
"""

from __future__ import annotations

from planner.domain.measure import VideoFramesTest
from planner.domain.test_kinds import KindOfTest
from planner.estimate.findings import Notebook

SHORTEST_FLIGHT_s, LONGEST_FLIGHT_s = 0.1, 1.2
SHORTEST_CONTACT_s, LONGEST_CONTACT_s = 0.08, 1.5


def flights_s(number: int, test: VideoFramesTest, notes: Notebook) -> list[float]:
    """Flight time of each trial with a landing; one that cannot be a flight is named and left out."""
    found = []
    for index, trial in enumerate(test.trials):
        if trial.landing is None:
            continue
        time_s = (trial.landing - trial.take_off) / test.frame_rate
        at = ("tests", number, "trials", index)
        if _plausible(time_s, SHORTEST_FLIGHT_s, LONGEST_FLIGHT_s, "flight", at, notes):
            found.append(time_s)
    return found


def contacts_s(number: int, test: VideoFramesTest, kind: KindOfTest, notes: Notebook) -> list[float]:
    """Contact of each trial with a touch-down. Too slow a camera is refused, a slow one warned of, with the figure."""
    if all(trial.touch_down is None for trial in test.trials):
        return []
    frame_ms = 1000.0 / test.frame_rate
    refused, warned = kind.refuse_contact_under or 0.0, kind.warn_contact_under or 0.0
    at = ("tests", number, "frame_rate")
    if test.frame_rate < refused:
        notes.add(
            "warning",
            "video-too-slow",
            f"no contact time is taken from {test.frame_rate:g} frames a second: ± 1 frame is ± {frame_ms:.0f} ms, "
            f"at least {refused:g} are needed",
            hint=f"film at {warned:g} frames a second",
            at=at,
        )
        return []
    if test.frame_rate < warned:
        notes.add(
            "warning",
            "video-slow",
            f"the contact time from {test.frame_rate:g} frames a second is rough: ± 1 frame is ± {frame_ms:.0f} ms",
            hint=f"film at {warned:g} frames a second",
            at=at,
        )
    found = []
    for index, trial in enumerate(test.trials):
        if trial.touch_down is not None:
            time_s = (trial.take_off - trial.touch_down) / test.frame_rate
            trial_at = ("tests", number, "trials", index)
            if _plausible(time_s, SHORTEST_CONTACT_s, LONGEST_CONTACT_s, "contact", trial_at, notes):
                found.append(time_s)
    return found


def _plausible(
    time_s: float, low_s: float, high_s: float, what: str, at: tuple[str | int, ...], notes: Notebook
) -> bool:
    if low_s <= time_s <= high_s:
        return True
    notes.add(
        "warning",
        f"video-{what}",
        f"these frames make a {what} of {time_s:.3f} s, which cannot be: the trial is not used",
        hint="touch_down < take_off < landing, numbered at the rate it was filmed, not played back",
        at=at,
    )
    return False
