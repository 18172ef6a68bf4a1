"""What a column of a sheet of tests holds, by its heading; and the headings of a new sheet."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass, replace

from planner.domain.terms import LEGS, Leg
from planner.domain.test_sheet import LongField, PersonColumn, SheetFigure, SheetTest, TestSheet
from planner.files.field_types import FieldType, field_type, figure_type, shape_of_test
from planner.files.suggest import nearest
from planner.units import UNITS

_IN_BRACKETS = re.compile(r"[(\[]\s*([^()\[\]]*?)\s*[)\]]")
_BETWEEN_WORDS = re.compile(r"[\s_\-–—/.:,#()\[\]]+")
ALL_UNITS = frozenset(unit for units in UNITS.values() for unit in units)
MOST_TRIALS = 12


@dataclass(frozen=True)
class Meaning:
    """Of one column: a field of the athlete, a part of a row of one trial, or a figure of a test."""

    heading: str
    unit: str | None = None
    person: PersonColumn | None = None
    long: LongField | None = None
    test: SheetTest | None = None
    figure: SheetFigure | None = None
    side: Leg | None = None
    trial: int | None = None

    @property
    def key(self) -> tuple[object, ...]:
        """The same for two columns that hold the same."""
        of_test = (self.test.id, self.figure.field) if self.test and self.figure else ()
        return (self.person.field if self.person else None, self.long, *of_test, self.side, self.trial)


def folded(text: str) -> str:
    """Small letters, words parted by one blank: as headings are compared."""
    return _BETWEEN_WORDS.sub(" ", unicodedata.normalize("NFKC", text).casefold()).strip()


def type_of(meaning: Meaning) -> FieldType | None:
    """What its cells must be; None for a part of a trial's row, which depends on the row."""
    from planner.domain.athlete import Athlete

    if meaning.person is not None:
        name = meaning.person.field
        if name == "date":
            return FieldType("date")
        return FieldType("text", longest=60) if name == "id" else field_type(Athlete, name)
    if meaning.test is not None and meaning.figure is not None:
        return figure_type(meaning.test.kind, meaning.figure.field)
    return None


class Headings:
    """The headings that a battery knows."""

    def __init__(self, sheet: TestSheet) -> None:
        self.sheet = sheet
        self._known: dict[str, Meaning] = {}
        self.twice: list[str] = []
        for person in sheet.athlete:
            self._add((person.heading, *person.names), Meaning(person.heading, person=person))
        for column in sheet.trials:
            self._add((column.heading, *column.names), Meaning(column.heading, long=column.means))
        for test in sheet.tests:
            for figure in test.figures:
                names = [
                    f"{one} {two}" for one in (test.heading, *test.names) for two in (figure.heading, *figure.names)
                ]
                self._add(names, Meaning(test.heading, test=test, figure=figure))
        self._sides: dict[str, Leg] = {folded(word): leg for leg in LEGS for word in (leg, *sheet.sides.get(leg, ()))}
        trial = next((column for column in sheet.trials if column.means == "trial"), None)
        self._trial_words = [folded(one) for one in (trial.heading, *trial.names)] if trial else []

    def _add(self, names: tuple[str, ...] | list[str], meaning: Meaning) -> None:
        for name in dict.fromkeys(folded(one) for one in names):
            if name in self._known:
                self.twice.append(name)
            self._known[name] = meaning

    def close(self, text: str) -> str | None:
        """The known heading most like this one, number of a trial and unit left out."""
        return nearest(re.sub(r"\s\d+$", "", folded(_IN_BRACKETS.sub(" ", text))), self._known)

    def side(self, text: str) -> Leg | None:
        return self._sides.get(folded(text))

    def meaning(self, text: str) -> Meaning | None:
        """What a heading means; None for one that the sheet does not know."""
        unit = next((found for found in _IN_BRACKETS.findall(text) if found in ALL_UNITS), None)
        bare = folded(
            _IN_BRACKETS.sub(lambda one: " " if one.group(1) == unit else one.group(), text) if unit else text
        )
        found = self._of_words(bare)
        return replace(found, heading=text.strip(), unit=unit) if found else None

    def _of_words(self, text: str) -> Meaning | None:
        if text in self._known:
            return self._known[text]
        for without, side, trial in self._shorter(text):
            found = self._known.get(without)
            if found is not None and found.test is not None and (side is None or found.test.sides):
                return replace(found, side=side, trial=trial)
        return None

    def _shorter(self, text: str) -> Iterator[tuple[str, Leg | None, int | None]]:
        """The text without a side, without the number of a trial, and without both."""
        tails: list[tuple[str, int | None]] = [(text, None)]
        for part in self._trial_words:
            text = re.sub(rf"\b{re.escape(part)} (\d+)\b", r"\1", text)
        numbered = [
            found for found in re.finditer(r"(?<!\S)(\d{1,2})(?!\S)", text) if 1 <= int(found.group()) <= MOST_TRIALS
        ]
        for number in reversed(numbered):
            tails.append((folded(text[: number.start()] + text[number.end() :]), int(number.group())))
        for tail, trial in tails:
            yield tail, None, trial
            for word, side in self._sides.items():
                for found in re.finditer(rf"(?<!\S){re.escape(word)}(?!\S)", tail):
                    yield folded(tail[: found.start()] + tail[found.end() :]), side, trial


def new_sheet_columns(sheet: TestSheet, tests: tuple[str, ...] = ()) -> list[Meaning]:
    """The columns of a new sheet, one row an athlete. ``tests``: only these; () for the battery's own choice."""
    found = [Meaning(one.heading, one.unit, person=one) for one in sheet.athlete if one.in_sheet]
    for test in sheet.tests:
        if test.id in tests if tests else test.in_sheet:
            found += _test_columns(test)
    return found


def _test_columns(test: SheetTest) -> Iterator[Meaning]:
    numbered = test.trials > 1 and shape_of_test(test.kind) not in ("legs", "fields")
    for side in LEGS if test.sides else (None,):
        for trial in range(1, test.trials + 1):
            for figure in test.figures:
                words = [test.heading, side or "", figure.heading, str(trial) if numbered else ""]
                heading = " ".join(filter(None, words))
                yield Meaning(heading, figure.unit, None, None, test, figure, side, trial if numbered else None)
