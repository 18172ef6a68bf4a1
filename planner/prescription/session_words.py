"""When a session is and what it is about. Months are words, so that nobody guesses which number is the day."""

from __future__ import annotations

import datetime

from planner.domain.block import AthleteLine, Session
from planner.domain.card_layout import CardLayout


def date_text(date: datetime.date, athlete: AthleteLine, layout: CardLayout) -> str:
    """``2025-09-08``, ``8 Sep 2025`` or ``Sep 8, 2025``."""
    month = layout.months[date.month - 1]
    return {
        "iso": date.isoformat(),
        "day-first": f"{date.day} {month} {date.year}",
        "month-first": f"{month} {date.day}, {date.year}",
    }[athlete.dates]


def dated(session: Session, athlete: AthleteLine, layout: CardLayout) -> str:
    """Weekday and date of a session."""
    return f"{layout.days[session.date.weekday()]} {date_text(session.date, athlete, layout)}"


def title_of(session: Session) -> str:
    """What the session is about: its title, or the id of its kind if the block gives no title."""
    words = session.title or (session.focus if " " in session.focus else session.focus.replace("-", " "))
    return words[:1].upper() + words[1:]
