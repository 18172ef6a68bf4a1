"""Video frames to contacts and flights in seconds, refused outside the bounds for those written in seconds.

An event happens within the frame before the one that first shows it. A time between two events is therefore wrong by at
most one frame either way; as a triangle of that width its standard deviation is 1 / (rate x sqrt 6).
"""

from __future__ import annotations

from planner.domain.base import LONGEST_CONTACT_s, LONGEST_FLIGHT_s, SHORTEST_CONTACT_s, SHORTEST_FLIGHT_s
from planner.domain.measure import VideoFramesTest
from planner.domain.test_kinds import KindOfTest
from planner.domain.test_record import VideoTrial
from planner.estimate.notebook import Notebook


def flights_s(number: int, test: VideoFramesTest, notes: Notebook) -> list[float]:
    """Flight time of each trial with a landing; an impossible one gets a finding and is left out."""
    found = []
    for index, trial in enumerate(test.trials):
        time_s = _flight_s(trial, test.frame_rate)
        if time_s is None:
            continue
        if SHORTEST_FLIGHT_s <= time_s <= LONGEST_FLIGHT_s:
            found.append(time_s)
        else:
            _note_impossible(time_s, "flight", number, index, notes)
    return found


def contacts_s(number: int, test: VideoFramesTest, kind: KindOfTest, notes: Notebook) -> list[float]:
    """Contact of each trial with a touch-down. A camera that is too slow is refused; a slow one gets a warning."""
    return [contact_s for _, contact_s in _contacts(number, test, kind, notes)]


def drops_s(number: int, test: VideoFramesTest, kind: KindOfTest, notes: Notebook) -> list[tuple[float, float]]:
    """(contact, flight) of each trial that has both, for drop jumps; with the same limits on the camera."""
    flights = {index: _flight_s(trial, test.frame_rate) for index, trial in enumerate(test.trials)}
    return [
        (contact_s, flight_s)
        for index, contact_s in _contacts(number, test, kind, notes)
        if (flight_s := flights[index]) is not None and SHORTEST_FLIGHT_s <= flight_s <= LONGEST_FLIGHT_s
    ]


def _flight_s(trial: VideoTrial, frame_rate: float) -> float | None:
    return None if trial.landing is None else (trial.landing - trial.take_off) / frame_rate


def _contacts(number: int, test: VideoFramesTest, kind: KindOfTest, notes: Notebook) -> list[tuple[int, float]]:
    """Trial number and contact; nothing from a camera that is too slow."""
    told = [(index, trial) for index, trial in enumerate(test.trials) if trial.touch_down is not None]
    if not told or not _fast_enough(number, test, kind, notes):
        return []
    found = []
    for index, trial in told:
        time_s = (trial.take_off - (trial.touch_down or 0)) / test.frame_rate
        if SHORTEST_CONTACT_s <= time_s <= LONGEST_CONTACT_s:
            found.append((index, time_s))
        else:
            _note_impossible(time_s, "contact", number, index, notes)
    return found


def _fast_enough(number: int, test: VideoFramesTest, kind: KindOfTest, notes: Notebook) -> bool:
    frame_ms = 1000.0 / test.frame_rate
    refused, warned = kind.refuse_contact_under or 0.0, kind.warn_contact_under or 0.0
    at, hint = ("tests", number, "frame_rate"), f"film at {warned:g} frames a second"
    if test.frame_rate < refused:
        message = (
            f"no contact time is taken from {test.frame_rate:g} frames a second: ± 1 frame is ± {frame_ms:.0f} ms, "
            f"at least {refused:g} are needed"
        )
        notes.drop(number, "video-too-slow", message, hint=hint, at=("frame_rate",))
        return False
    if test.frame_rate < warned:
        message = (
            f"the contact time from {test.frame_rate:g} frames a second is rough: ± 1 frame is ± {frame_ms:.0f} ms"
        )
        notes.add("warning", "video-slow", message, hint=hint, at=at)
    return True


def _note_impossible(time_s: float, what: str, number: int, index: int, notes: Notebook) -> None:
    message = f"these frames make a {what} of {time_s:.3f} s, which is impossible: the trial is not used"
    hint = "touch_down < take_off < landing, numbered at the rate it was filmed, not played back"
    notes.drop(number, f"video-{what}", message, hint=hint, at=("trials", index))
