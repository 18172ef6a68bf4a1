"""What an athlete's file says as a whole: the whole sentence on its line, and silence right at the limit."""

from __future__ import annotations

import pytest

from files.snippets import changed, findings_of

LANDING = "landing: h"
LIFT = "  - {kind: lift"
LOAD = "recent_load: {weekly_working_sets: 60, weekly_sprints: 0, weekly_contacts: 100, weekly_high_contacts: "
SPLITS = "{kind: sprint-splits, date: 2025-03-01, distances: "
TARGET = "  touch: 3.00 m\n  method: touch"


def before(old: str, new: str) -> tuple[str, str]:
    """A line more, ahead of the one that begins with ``old``."""
    return old, f"{new}\n{old}"


def with_test(text: str) -> tuple[str, str]:
    return before(LIFT, f"  - {text}")


SILENT = {
    "reach as high as the body": ("standing_reach: 2.35 m\ntip_toe", "standing_reach: 1.8034 m\ntip_toe"),
    "tip-toe just above flat": ("tip_toe_reach: 2.46 m", "tip_toe_reach: 2.36 m"),
    "no tip-toe reach": ("tip_toe_reach: 2.46 m\n", ""),
    "touches at the reach": ("2.90 m, 2.91 m", "2.35 m, 2.35 m"),
    "a rise by touch": (TARGET, "  rise: 60 cm\n  method: touch"),
    "seven years old": ("2002-03-04", "2018-03-01"),
    "ninety years old": ("2002-03-04", "1934-03-02"),
    "a target the day after": ("  method: touch", "  method: touch\n  by: 2025-03-02"),
    "a minute left to plan": ("own_work_minutes: 15", "own_work_minutes: 74"),
    "all contacts high": before(LANDING, f"{LOAD}100}}"),
    "a match on a date": before(LANDING, "matches: [{minutes: 90, date: 2025-03-08}]"),
    "a joint on both sides": before(
        LANDING, "joints: [{joint: hip-groin, side: left}, {joint: hip-groin, side: right}]"
    ),
    "a pin on a training day": before(LANDING, "pins: [{movement: c, day: thu}]"),
    "an allowed rule": before(LANDING, "allow: [{reason: why not, date: 2025-01-01, rule: x}]"),
    "an allowed movement": before(LANDING, "allow: [{reason: why not, date: 2025-01-01, movement: x}]"),
    "one leg alone": with_test("{kind: heel-raise, date: 2025-03-01, form: free, left: 20}"),
    "the other leg alone": with_test("{kind: heel-raise, date: 2025-03-01, form: free, right: 20}"),
    "flights of one leg": with_test("{kind: one-leg-jump, date: 2025-03-01, right: [0.4 s]}"),
    "splits that grow": with_test(f"{SPLITS}[10 m, 20 m], trials: [[1.8 s, 3 s]]}}"),
    "a stature of the day of birth's morrow": before(
        LANDING, "stature_records: [{date: 2002-03-05, stature: 150 cm}, {date: 2012-03-05, stature: 150 cm}]"
    ),
}


@pytest.mark.parametrize(("old", "new"), SILENT.values(), ids=SILENT)
def test_what_is_just_right_is_not_told(old: str, new: str) -> None:
    assert findings_of(changed(old, new)[0]) == ()


# The finding: its code, how many lines below the change, the sentence, what to do, the other place's line or 0.
Told = tuple[str, int, str, str, int]
CASES: list[tuple[tuple[str, str], Told]] = [
    (
        ("standing_reach: 2.35 m\ntip_toe", "standing_reach: 1.80 m\ntip_toe"),
        (
            "reach-below-stature",
            0,
            "standing_reach: 70.87 in is below the stature of 71 in (line 5)",
            "measure one hand up, feet flat",
            5,
        ),
    ),
    (
        ("tip_toe_reach: 2.46 m", "tip_toe_reach: 2.35 m"),
        (
            "tip-toe-below-standing",
            0,
            "tip_toe_reach: 92.52 in is not above the standing reach of 92.52 in (line 6)",
            "measure both with one hand at a wall, flat-footed and on tip-toe; or leave tip_toe_reach out",
            6,
        ),
    ),
    (
        ("touch: 3.00 m", "touch: 2.34 m"),
        (
            "touch-below-reach",
            0,
            "the target, 92.13 in, is below the standing reach of 92.52 in (line 6)",
            "check both numbers and their units",
            6,
        ),
    ),
    (
        ("2.90 m, 2.91 m", "2.35 m, 2.34 m"),
        (
            "touch-below-reach",
            0,
            "the touch, 92.13 in, is below the standing reach of 92.52 in (line 6)",
            "check both numbers and their units",
            6,
        ),
    ),
    (
        ("  touch: 3.00 m", "  touch: 3.00 m\n  rise: 60 cm"),
        ("target-not-one", -1, "the target has both touch and rise", "write one of them", 0),
    ),
    (
        ("  touch: 3.00 m\n", ""),
        ("target-not-one", -1, "the target has neither touch nor rise", "write one of them", 0),
    ),
    (
        (TARGET, "  touch: 3.00 m\n  method: impulse"),
        (
            "target-method",
            1,
            "a touch cannot be the target of the method 'impulse'",
            "write method: touch, or a rise",
            0,
        ),
    ),
    (
        (TARGET, "  rise: 60 cm\n  method: impulse"),
        (
            "target-method-untested",
            1,
            "no test was taken by the target's method, 'impulse'",
            "heights by another method are another quantity; retest, or write method: touch",
            0,
        ),
    ),
    (
        ("2002-03-04", "2025-03-01"),
        (
            "born-after-test",
            0,
            "birth_date: 2025-03-01 is not before the test of 2025-03-01 (line 24)",
            "check both years",
            24,
        ),
    ),
    (
        before(LANDING, "stature_records: [{date: 2002-03-04, stature: 150 cm}]"),
        (
            "born-after-test",
            -13,
            "birth_date: 2002-03-04 is not before the test of 2002-03-04 (line 16)",
            "check both years",
            16,
        ),
    ),
    (
        ("2002-03-04", "2023-06-01"),
        (
            "age",
            0,
            "birth_date: 2023-06-01: 1 year old at the latest test (2025-03-01)",
            "check the year; athletes are 7 to 90 years old here",
            0,
        ),
    ),
    (
        ("2002-03-04", "2018-03-02"),
        (
            "age",
            0,
            "birth_date: 2018-03-02: 6 years old at the latest test (2025-03-01)",
            "check the year; athletes are 7 to 90 years old here",
            0,
        ),
    ),
    (
        ("2002-03-04", "1934-03-01"),
        (
            "age",
            0,
            "birth_date: 1934-03-01: 91 years old at the latest test (2025-03-01)",
            "check the year; athletes are 7 to 90 years old here",
            0,
        ),
    ),
    (
        ("  method: touch", "  method: touch\n  by: 2025-03-01"),
        ("target-date-past", 1, "by: 2025-03-01 is not after the latest test (2025-03-01)", "set a later date", 0),
    ),
    (
        ("day: thu", "day: mon"),
        (
            "day-twice",
            0,
            "'mon' is a training day twice, first on line 14",
            "make them one, with the minutes of both",
            14,
        ),
    ),
    (
        ("own_work_minutes: 15", "own_work_minutes: 75"),
        ("no-minutes-left", 0, "own work takes 75 of 75 minutes: nothing is left to plan", "lower it", 0),
    ),
    (
        before(LANDING, f"{LOAD}101}}"),
        (
            "more-high-than-all",
            0,
            "101 high contacts are more than the 100 contacts in all",
            "high contacts are counted among weekly_contacts",
            0,
        ),
    ),
    (
        before(LANDING, "matches: [{day: sat, minutes: 90, date: 2025-03-08}]"),
        (
            "fixture-day-or-date",
            0,
            "this has both a day and a date",
            "write day for every week, date for once",
            0,
        ),
    ),
    (
        ("{day: tue, minutes", "{minutes"),
        (
            "fixture-day-or-date",
            0,
            "this has neither a day nor a date",
            "write day for every week, date for once",
            0,
        ),
    ),
    (
        before(LANDING, "joints:\n  - {joint: hip-groin}\n  - {joint: low-back}\n  - {joint: hip-groin}"),
        ("joint-twice", 3, "'hip-groin' is listed twice for the same side, first on line 17", "keep one of them", 17),
    ),
    (
        before(LANDING, "bans: [b, a]\npins: [{movement: c}, {movement: a, day: thu}]"),
        ("pinned-and-banned", 1, "'a' is pinned here and banned on line 16", "delete one", 16),
    ),
    (
        before(LANDING, "pins: [{movement: c, day: wed}]"),
        ("pin-day", 0, "'wed' is not a training day", "use one of: mon, thu", 0),
    ),
    (
        before(LANDING, "allow: [{reason: why not, date: 2025-01-01, rule: x, movement: y}]"),
        (
            "allowance-of-what",
            0,
            "it is not clear what is allowed here",
            "name one: the rule, or the movement",
            0,
        ),
    ),
    (
        with_test("{kind: one-leg-jump, date: 2025-03-01}"),
        ("no-result", 0, "this test has neither a left nor a right result", "add left, right or both", 0),
    ),
    (
        with_test(f"{SPLITS}[10 m, 20 m], trials: [[1.8 s, 3 s], [1.8 s]]}}"),
        ("splits-number", 0, "1 time for 2 distances", "write one time for each distance", 0),
    ),
    (
        with_test(f"{SPLITS}[10 m, 10 m], trials: [[1.8 s, 3 s]]}}"),
        ("splits-order", 0, "the distances do not grow from one to the next", "count each from the start", 0),
    ),
    (
        with_test(f"{SPLITS}[0 m, 10 m], trials: [[1.8 s, 3 s]]}}"),
        ("splits-order", 0, "the distances do not grow from one to the next", "count each from the start", 0),
    ),
    (
        with_test(f"{SPLITS}[10 m, 20 m], trials: [[1.8 s, 3 s], [3 s, 3 s]]}}"),
        ("splits-order", 0, "the times do not grow from one split to the next", "count each time from the start", 0),
    ),
]


@pytest.mark.parametrize(("change", "told"), CASES, ids=[case[1][0] for case in CASES])
def test_what_does_not_fit_is_told_whole(change: tuple[str, str], told: Told) -> None:
    text, line = changed(*change)
    (found,) = findings_of(text)
    code, below, message, hint, other = told
    assert (found.code, found.line, found.message, found.hint) == (code, line + below, message, hint)
    assert found.other == (f"nora.yaml:{other}" if other else "")
    assert found.level == ("warning" if code in ("target-method-untested", "target-date-past") else "error")


HEIGHTS = {
    "flight-time": [
        "{kind: flight-time, date: 2025-03-01, take_off: two-leg, trials: [0.6 s]}",
        "{kind: video-frames, date: 2025-03-01, take_off: two-leg, frame_rate: 240 /s, "
        "trials: [{take_off: 60, landing: 200}]}",
        "{kind: force-platform, date: 2025-03-01, jump: countermovement, trials: [{flight: 0.5 s}]}",
        "{kind: contact-mat, date: 2025-03-01, take_off: two-leg, trials: [{flight: 0.5 s}]}",
    ],
    "impulse": [
        "{kind: force-platform, date: 2025-03-01, jump: countermovement, trials: [{rise_by_impulse: 40 cm}]}",
        "{kind: force-platform, date: 2025-03-01, jump: squat, trials: [{flight: 0.5 s, rise_by_impulse: 40 cm}]}",
    ],
    "given": ["{kind: given-rise, date: 2025-03-01, take_off: two-leg, trials: [60 cm]}"],
}
TOLD_BY = [(method, test) for method, tests in HEIGHTS.items() for test in tests]


@pytest.mark.parametrize(("method", "test"), TOLD_BY)
def test_a_test_by_the_target_s_method_is_known(method: str, test: str) -> None:
    text = changed(*with_test(test), changed(TARGET, f"  rise: 60 cm\n  method: {method}")[0])[0]
    assert findings_of(text) == ()


@pytest.mark.parametrize(
    "test",
    [
        "{kind: video-frames, date: 2025-03-01, take_off: two-leg, frame_rate: 240 /s, drop: 30 cm, "
        "trials: [{touch_down: 1, take_off: 60, landing: 200}]}",
        "{kind: video-frames, date: 2025-03-01, take_off: two-leg, frame_rate: 240 /s, "
        "trials: [{touch_down: 1, take_off: 60}]}",
        "{kind: force-platform, date: 2025-03-01, jump: drop, drop: 30 cm, trials: [{flight: 0.5 s}]}",
        "{kind: lift, date: 2025-03-01, movement: squat, load: 100 kg, reps: 5}",
    ],
)
def test_a_test_that_tells_no_height_of_the_target_s_jump_is_none_by_its_method(test: str) -> None:
    text = changed(*with_test(test), changed(TARGET, "  rise: 60 cm\n  method: flight-time")[0])[0]
    assert [found.code for found in findings_of(text)] == ["target-method-untested"]


def test_the_latest_test_counts_for_the_age_and_the_target_s_date() -> None:
    """Born on 1 March 2018: seven years old at the second test, six at the first."""
    text = changed("date: 2025-03-01, movement", "date: 2025-02-20, movement")[0]
    text = changed("2002-03-04", "2018-03-01", text)[0]
    assert findings_of(text) == ()
    text = changed("  method: touch", "  method: touch\n  by: 2025-02-25", text)[0]
    assert [found.code for found in findings_of(text)] == ["target-date-past"]
