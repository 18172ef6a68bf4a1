"""The calendar, read back by a second library: one event a session, on its day or at its time, with its items."""

from __future__ import annotations

import datetime
from dataclasses import replace

import pytest
import vobject

from planner.calendar_file import calendar_file, folded
from planner.domain.block import Block
from planner.solve.make_block import block_id
from planner.units import POUND_kg
from tests.cards.invented_block import block, item, layout, with_session
from tests.solve.demos import problem

LAYOUT = layout()
LINE_octets = 75  # RFC 5545, 3.1
TIMES = {"mon": "17:30", "sat": "09:05"}


def timed(made: Block, times: dict[str, str]) -> Block:
    return made.model_copy(update={"for_athlete": made.for_athlete.model_copy(update={"times": times})})


def events(made: Block) -> list:
    calendar = vobject.readOne(calendar_file(made, LAYOUT).decode("utf-8"))
    assert calendar.version.value == "2.0" and calendar.prodid.value
    return list(calendar.vevent_list)


def test_an_event_a_session_on_its_day() -> None:
    made = block()
    sessions = made.sessions
    read = events(made)
    assert len(read) == len(sessions) == 32
    for event, session in zip(read, sessions, strict=True):
        assert event.dtstart.value == session.date
        assert type(event.dtstart.value) is datetime.date, "without a time the day is the event"
        assert event.dtend.value == session.date + datetime.timedelta(days=1)
        assert not hasattr(event, "duration")


def test_days_with_a_time_start_then_on_the_athletes_own_clock() -> None:
    made = timed(block(weeks=1), TIMES)
    for event, session in zip(events(made), made.weeks[0].sessions, strict=True):
        start = {0: datetime.time(17, 30), 5: datetime.time(9, 5)}.get(session.date.weekday())
        if start is None:
            assert event.dtstart.value == session.date
            continue
        assert event.dtstart.value == datetime.datetime.combine(session.date, start)
        assert event.dtstart.value.tzinfo is None, "floating: half past five wherever the athlete is"
        assert event.duration.value == datetime.timedelta(minutes=session.minutes)
        assert not hasattr(event, "dtend")


def test_the_description_holds_every_item_with_its_sets_and_reps() -> None:
    made = block(weeks=4)
    for event, session in zip(events(made), made.sessions, strict=True):
        lines = event.description.value.split("\n")
        assert lines[1] == session.why
        for number, one in enumerate(session.items, start=1):
            (line,) = [line for line in lines if line.startswith(f"{number}. {one.name}: ")]
            if one.sets == 0:
                assert one.note in line and "not this week" in line
            elif one.hold_s or one.distance_m:
                assert f"{one.sets} × {one.hold_s}" in line or f"{one.sets} × {one.distance_m:g} m" in line
            else:
                assert f"{one.sets} × {one.reps}" in line
        assert lines[-len(LAYOUT.stop_rule) :] == list(LAYOUT.stop_rule)


def test_the_same_block_gives_the_same_bytes_and_a_changed_one_the_same_identities() -> None:
    made = block(weeks=2)
    assert calendar_file(made, LAYOUT) == calendar_file(made, LAYOUT)
    moved = timed(made, TIMES)
    before, after = ([event.uid.value for event in events(each)] for each in (made, moved))
    assert before == after and len(set(before)) == len(before)
    assert all(event.dtstamp.value.date() == made.weeks[0].start for event in events(made))


def test_two_blocks_share_no_identity() -> None:
    made = block(weeks=1)
    other = made.model_copy(update={"id": f"{made.id}-2"})
    assert not {event.uid.value for event in events(made)} & {event.uid.value for event in events(other)}


@pytest.mark.parametrize(
    "text",
    [
        "Commas, semicolons; and a \\ back stroke",
        "BEGIN:VALARM",
        "Присед на одной ноге · Βαθύ κάθισμα " * 6,
        "x<y & z",
        "tab\tand\nline\r\nbreak\x00\x07",
    ],
)
def test_text_is_text(text: str) -> None:
    made = with_session([item("one-leg", text, 3, 8, implement="free", reps_in_reserve=2, note=text)])
    (event,) = events(made)
    said = " ".join("".join(c for c in text if c not in "\x00\x07").split())
    assert f"1. {said}: 3 × 8" in event.description.value

    assert {child.name for child in event.getChildren()} <= {
        "UID", "DTSTAMP", "DTSTART", "DTEND", "SUMMARY", "DESCRIPTION", "TRANSP",
    }  # fmt: skip


def test_lines_are_folded_and_end_as_the_standard_asks() -> None:
    name = "Ωμέγα щит · " * 20
    data = calendar_file(with_session([item("calf", name, 3, 8)]), LAYOUT)
    lines = data.split(b"\r\n")
    assert lines[-1] == b"" and b"\n" not in b"".join(lines)
    assert max(len(line) for line in lines) <= LINE_octets
    assert all(line.decode("utf-8") is not None for line in lines), "no letter is torn over two lines"


@pytest.mark.parametrize("first", [20, 60, 75])
def test_lines_are_cut_at_the_same_place_however_the_package_cuts_them(first: int) -> None:
    """Between letters, 75 octets with the space that begins a line: 25 letters of 3 octets, then 24."""
    line = "щ€" * 5 + "€" * 66
    cut = f"{line[:first]}\r\n {line[first:]}\r\n".encode()
    lines = folded(cut).decode("utf-8").split("\r\n")
    assert folded(cut) == folded(f"{line}\r\n".encode())
    assert "".join([lines[0], *(one[1:] for one in lines[1:])]) == line
    assert [len(one.encode("utf-8")) for one in lines[:2]] == [73, 73]


def test_loads_are_in_the_athletes_unit() -> None:
    made = with_session([item("main-lift", "Squat", 3, 5, load_kg=135 * POUND_kg)], mass_unit="lb")
    assert "3 × 5, 135 lb" in events(made)[0].description.value


def test_no_two_athletes_sessions_share_an_id() -> None:
    """A calendar takes an event with a known UID for the same event, and would lose one athlete's session."""
    adult = problem("adult")
    people = [("Аня Петрова", 1999), ("李娜", 1999), ("李娜", 2004), ("Ana Petrova", 1999)]
    ids = set()
    for name, year in people:
        born = adult.athlete.birth_date.replace(year=year)
        athlete = adult.athlete.model_copy(update={"name": name, "birth_date": born})
        ids.add(block_id(replace(adult, athlete=athlete)))
    assert len(ids) == len(people)


def test_the_events_title_names_the_athlete() -> None:
    made = block(weeks=1)
    assert all(event.summary.value.startswith(made.for_athlete.name) for event in events(made))
