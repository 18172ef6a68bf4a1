"""The block as a calendar file (RFC 5545), one event a session, so that a phone shows what to do and when."""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from icalendar import Calendar, Event, vText

from planner.domain.block import Block, Item, Session, Week
from planner.domain.card_layout import CardLayout
from planner.domain.terms import DAYS
from planner.prescription.iron_words import bar
from planner.prescription.item_words import prescribe
from planner.prescription.plain import clean
from planner.prescription.session_words import title_of
from planner.prescription.warm_up import warm_up_line

LINE_octets = 75
PRODUCT = "-//jumpblock//training block//EN"


def calendar_file(block: Block, layout: CardLayout) -> bytes:
    """The calendar's bytes; the same block gives the same bytes.

    Each session is an all-day event. If the athlete's file gives a time for the weekday, it starts at that time of the
    local clock (RFC 5545, 3.3.5 form 1: floating) and lasts its minutes. UIDs combine the block's id and the session's,
    so that re-importing updates events without duplicating them. There is no METHOD: with one, some calendars would
    keep the old event because its sequence number is no lower (RFC 5546, 2.1.4). DTSTAMP is the start of the block's
    first day (UTC), because nothing here reads the clock.
    """
    calendar = Calendar()
    calendar.add("prodid", PRODUCT)
    calendar.add("version", "2.0")
    calendar.add("calscale", "GREGORIAN")
    for week in block.weeks:
        for session in week.sessions:
            calendar.add_component(_event(block, week, session, layout))
    return folded(bytes(calendar.to_ical()))


def folded(content: bytes) -> bytes:
    """Lines cut anew at 75 octets, between letters (RFC 5545, 3.1): releases of the package differ."""
    lines = content.replace(b"\r\n ", b"").decode("utf-8").split("\r\n")
    return "\r\n".join("\r\n ".join(_pieces(line)) for line in lines).encode("utf-8")


def _pieces(line: str) -> Iterator[str]:
    """At most 75 octets, and one less after the first, where a space begins the line."""
    start, octets = 0, 0
    for at, letter in enumerate(line):
        octets += len(letter.encode("utf-8"))
        if octets > LINE_octets - (start > 0):
            yield line[start:at]
            start, octets = at, len(letter.encode("utf-8"))
    yield line[start:]


def _event(block: Block, week: Week, session: Session, layout: CardLayout) -> Event:
    words, event = layout.words, Event()
    number = week.sessions.index(session) + 1
    title = (
        f"{block.for_athlete.name} · {title_of(session)} · {words.week} {week.number}, {words.session.lower()} {number}"
    )
    event.add("uid", f"{block.id}-{session.id}@jumpblock")
    start = block.weeks[0].start
    event.add("dtstamp", datetime.datetime(start.year, start.month, start.day, tzinfo=datetime.UTC))
    time = block.for_athlete.times.get(DAYS[session.date.weekday()])
    if time is None:
        event.add("dtstart", session.date)
        event.add("dtend", session.date + datetime.timedelta(days=1))  # exclusive: the day after the session
    else:
        begins = datetime.datetime.combine(session.date, datetime.time.fromisoformat(time))
        event.add("dtstart", begins)
        event.add("duration", datetime.timedelta(minutes=session.minutes))
    event.add("summary", vText(clean(title)))
    event.add("description", vText(description(block, session, layout)))
    event.add("transp", "OPAQUE" if time else "TRANSPARENT")  # an all-day note must not fill the diary
    return event


def description(block: Block, session: Session, layout: CardLayout) -> str:
    """How long, why, the warm-up, then one line an item as its card says it, and when to stop."""
    words = layout.words
    lines = [f"{session.minutes} {words.minutes}" + (f", {words.hard_day}" if session.hard_day else ""), session.why]
    if warm_up := warm_up_line(session, block.for_athlete, layout):
        lines.append(f"{words.warm_up}: {warm_up}")
    lines += [f"{at}. {_item_line(item, block, layout)}" for at, item in enumerate(session.items, start=1)]
    return "\n".join(clean(line) for line in (*lines, *layout.stop_rule))


def _item_line(item: Item, block: Block, layout: CardLayout) -> str:
    if not item.sets:
        reason = item.note or layout.words.not_this_week
        start = layout.words.not_this_week
        return f"{clean(item.name)}: {reason if reason.startswith(start) else f'{start}: {reason}'}"
    said = prescribe(item, block.for_athlete, layout)
    dose = " ".join(filter(None, (said.dose, said.side)))
    built = ", ".join(filter(None, (bar(item, block.for_athlete, layout), said.built)))
    load = f"{said.load} ({built})" if built else said.load
    parts = [
        dose,
        said.note if said.load_to_find else load,
        said.weaker,
        said.effort,
        *(one for one in said.details if one not in built),
    ]
    return f"{clean(item.name)}: {', '.join(filter(None, parts))}"
