"""The athletes that the benchmarks plan: the shipped adult with a few lines of the file changed."""

from __future__ import annotations

from tests.independence.drawn import plain

Lines = dict[str, object]


def healthy_adults() -> list[tuple[str, Lines]]:
    """Ten of the shipped eight-week block: levels, days and minutes, gyms, take-offs. All their bands can be met."""
    return [
        ("as shipped", adult()),
        ("novice", adult(level="novice")),
        ("advanced", adult(level="advanced")),
        ("landing not yet", adult(landing="not-yet")),
        ("right leg", adult(**_take_off("one-leg right"))),
        ("two legs", adult(**_take_off("two-leg"))),
        ("lighter", adult(body_mass="70 kg")),
        ("three days", adult(training=days("mon", "wed", "fri"))),
        ("other four days", adult(training=days("mon", "wed", "fri", "sun"))),
        ("long days", adult(training=days("mon", "tue", "thu", "sat", minutes=110))),
    ]


def short_of_something() -> list[tuple[str, Lines]]:
    """Athletes whose bands are hard to meet, or cannot all be met: there the proof needs a bound."""
    sore_knee = {"joint": "patellar-knee", "side": "left", "pain": 3}
    return [
        ("short days", adult(training=days("mon", "tue", "thu", "sat", minutes=50))),
        ("sore knee", adult(joints=[sore_knee])),
    ]


def adult(**changes: object) -> Lines:
    return {**plain("adult-one-leg-jumper"), **changes}


def days(*names: str, minutes: int = 90) -> Lines:
    return {"days": [{"day": name, "minutes": minutes} for name in names]}


def _take_off(legs: str) -> Lines:
    """The same jumper off other legs: the tests of the target jump go with it."""
    tests = [
        {**test, "take_off": legs} if str(test.get("take_off", "")).startswith("one-leg") else test
        for test in adult()["tests"]  # type: ignore[attr-defined]
    ]
    return {"take_off": legs, "tests": tests}
