"""What ``test`` asks on a terminal, in the order of the test sheet, with the last result of each test shown."""

from __future__ import annotations

import datetime
from collections.abc import Callable

from planner.domain.findings import UserError
from planner.files.typed_figures import is_bare
from planner.files.typed_tests import result_example
from planner.jobs.battery_results import Battery, SheetPlace
from planner.jobs.question import Ask, Check, a_day, refusal
from planner.units import parse_quantity

LEFT_OUT = "-"


def ask_for_tests(
    battery: Battery, day: datetime.date | None, today: datetime.date, ask: Ask, say: Callable[[str], None]
) -> None:
    """Ask for the day, body mass and each test. Answers are in the battery at once; raises what ``ask`` raises."""
    if day is None:
        day = datetime.date.fromisoformat(ask("date of the tests", str(today), a_day))
    mass = ask(f"body mass ({battery.file.athlete.print_as.mass})", LEFT_OUT, _mass(battery))
    battery.body_mass = None if mass == LEFT_OUT else mass
    last, units = 0, (battery.file.athlete.print_as.length, battery.file.athlete.print_as.mass)
    for place in battery.places:
        if place.last.kind == "force-platform":
            continue  # its record is read from a file
        if place.number != last:
            say(f"{place.number}  {place.name}" + (f" · {place.how}" if place.how else ""))
        last = place.number
        leg = f"{place.side}, " if place.side else ""
        ask(
            f"  {leg}last {place.result}; such as {result_example(place.last.kind, units)}",
            LEFT_OUT,
            _takes_result(battery, place, day),
        )


def _takes_result(battery: Battery, place: SheetPlace, day: datetime.date) -> Check:
    def check(answer: str) -> str:
        if answer not in (LEFT_OUT, ""):
            try:
                battery.tell(place, day, answer)
            except UserError as error:
                raise refusal(error.findings[0].message, error.findings[0].hint) from None
        return answer or LEFT_OUT

    return check


def _mass(battery: Battery) -> Check:
    def check(answer: str) -> str:
        if answer in (LEFT_OUT, ""):
            return LEFT_OUT
        told = f"{answer} {battery.file.athlete.print_as.mass}" if is_bare(answer) else answer
        parse_quantity(told, "mass")
        try:
            battery.file.with_tests([], told)
        except UserError as error:
            raise ValueError(error.findings[0].message) from None
        return told

    return check
