"""Invented squads: rows of a sheet of tests as a coach would fill them, drawn from a seed."""

from __future__ import annotations

import datetime
import random
from functools import cache

from planner.domain.test_sheet import TestSheet
from planner.files.cells import CellValue
from planner.files.load import load_test_sheet
from planner.files.locate import locate_sheet
from planner.files.sheet_headings import Meaning, new_sheet_columns

TEST_DAY = datetime.date(2026, 3, 7)
# fmt: off
_FIRST = (
    "Ada", "Bela", "Cleo", "Dina", "Edda", "Fanny", "Greta", "Hanne", "Ida", "Jula", "Kaja", "Lena", "Mika", "Nela",
    "Odo", "Piet", "Quirin", "Remo", "Sven", "Tore", "Ugo", "Veit", "Wim", "Yann", "Arno", "Bente", "Cato", "Dario",
    "Elin", "Falk", "Gesa", "Hugo",
)
_LAST = (
    "Varga", "Lindt", "Moreau", "Sandor", "Brandt", "Keller", "Novak", "Rossi", "Adler", "Winter", "Falk", "Horvat",
    "Jansen", "Marek", "Olsen", "Petri", "Renner", "Sommer", "Toth", "Ullman", "Vetter", "Weiss", "Zeller", "Anders",
    "Becker", "Cordes", "Dahl", "Ebner", "Frey", "Gruber", "Hansen",
)
# fmt: on


@cache
def battery() -> TestSheet:
    at = locate_sheet()
    return load_test_sheet(at.path, at.display).require()


@cache
def columns() -> tuple[Meaning, ...]:
    return tuple(new_sheet_columns(battery()))


def names(count: int) -> list[str]:
    """Each once: first names in turn, family names that move on with every round."""
    return [f"{_FIRST[n % len(_FIRST)]} {_LAST[(n * 7 + n // len(_FIRST)) % len(_LAST)]}" for n in range(count)]


def rows(count: int, seed: int = 1) -> list[list[CellValue]]:
    """A row for each athlete, in the columns of a new sheet."""
    return [_row(name, random.Random(f"{seed} {name}")) for name in names(count)]


def _row(name: str, dice: random.Random) -> list[CellValue]:
    says = _athlete(name, dice)
    return [says.get(_key(column)) for column in columns()]


def _key(column: Meaning) -> tuple[object, ...]:
    if column.person is not None:
        return (column.person.field,)
    assert column.test is not None and column.figure is not None
    return (column.test.id, column.figure.field, column.side, column.trial or 1)


def _athlete(name: str, dice: random.Random) -> dict[tuple[object, ...], CellValue]:
    female = dice.random() < 0.5
    level = dice.choice(("novice", "intermediate", "intermediate", "advanced"))
    strength = {"novice": 0.95, "intermediate": 1.25, "advanced": 1.55}[level] - (0.15 if female else 0)
    stature = round(dice.gauss(171 if female else 184, 6))
    mass = round(dice.gauss(63 if female else 78, 6) * 2) / 2
    reach = round(stature * dice.uniform(1.285, 1.315))
    rise = round(dice.gauss(46 if female else 60, 5))
    leg = dice.choice(("one-leg left", "one-leg right", "two-leg"))
    touch = reach + rise
    squat = round(mass * strength * dice.uniform(0.85, 1.05) * 0.85 / 2.5) * 2.5
    split = round(squat * dice.uniform(0.36, 0.44) / 2) * 2
    flying = dice.gauss(1.36 if female else 1.24, 0.05)
    found: dict[tuple[object, ...], CellValue] = {
        ("name",): name,
        ("date",): TEST_DAY,
        ("birth_date",): datetime.date(2026 - dice.randint(18, 25), dice.randint(1, 12), dice.randint(1, 28)),
        ("sex",): "female" if female else "male",
        ("body_mass",): mass,
        ("stature",): stature,
        ("standing_reach",): reach,
        ("take_off",): leg,
        ("approach.steps",): dice.choice((3, 5, 7)),
        ("level",): level,
        ("landing",): "holds",
        ("recent_load.weekly_contacts",): dice.randrange(100, 210, 10),
        ("recent_load.weekly_high_contacts",): dice.randrange(4, 14),
        ("recent_load.weekly_sprints",): dice.randrange(4, 10),
        ("recent_load.weekly_working_sets",): dice.randrange(20, 36, 2),
        ("back-squat", "load", None, 1): squat,
        ("back-squat", "reps", None, 1): 4,
        ("back-squat", "reps_in_reserve", None, 1): dice.choice((1, 2)),
    }
    for trial in (1, 2, 3):
        found[("touch-run-up", "trials", None, trial)] = touch + dice.choice((-1, 0, 0, 1))
    for trial in (1, 2):
        found[("contact-time", "trials", None, trial)] = round(dice.gauss(195, 6))
        found[("drop-jump-30", "contact", None, trial)] = round(dice.gauss(205, 6))
        found[("drop-jump-30", "flight", None, trial)] = round(dice.gauss(450 if female else 505, 8))
        found[("flying-sprint-10", "trials", None, trial)] = round(flying + dice.gauss(0, 0.01), 2)
    raises = round(dice.gauss(24, 5))
    for side in ("left", "right"):
        found[("rear-foot-split-squat", "load", side, 1)] = split + dice.choice((-2, 0, 0, 2))
        found[("rear-foot-split-squat", "reps", side, 1)] = 6
        found[("rear-foot-split-squat", "reps_in_reserve", side, 1)] = 2
        found[("heel-raise", "trials", side, 1)] = max(8, raises + dice.choice((-2, -1, 0, 1, 2)))
    return found
