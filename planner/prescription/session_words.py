"""When a session is and what it is about. Months are words, so that nobody guesses which number is the day."""

from __future__ import annotations

import datetime

from planner.domain.block import AthleteLine, Session, Week
from planner.domain.card_layout import CardLayout
from planner.domain.terms import LOAD_ROLES
from planner.prescription.item_words import is_to_find
from planner.prescription.tally import is_working_set
from planner.units import as_read_by


def date_text(date: datetime.date, athlete: AthleteLine, layout: CardLayout) -> str:
    """``2025-09-08``, ``8 Sep 2025`` or ``Sep 8, 2025``."""
    month = layout.months[date.month - 1]
    return {
        "iso": date.isoformat(),
        "day-first": f"{date.day} {month} {date.year}",
        "month-first": f"{month} {date.day}, {date.year}",
    }[athlete.dates]


def test_day_lines(athlete: AthleteLine, layout: CardLayout) -> list[str]:
    """How the test day is run, lengths in the athlete's unit."""
    return [as_read_by(line, athlete.length_unit, athlete.mass_unit) for line in layout.test_day]


test_day_lines.__test__ = False  # type: ignore[attr-defined]  # not a pytest test


def dated(session: Session, athlete: AthleteLine, layout: CardLayout) -> str:
    """Weekday and date of a session."""
    return f"{layout.days[session.date.weekday()]} {date_text(session.date, athlete, layout)}"


def next_load_line(week: Week, session: Session, athlete: AthleteLine, layout: CardLayout) -> str:
    """When a novice takes the next load; empty for others, in an easy week, and where no lift has a load."""
    loaded = (item for item in session.items if is_working_set(item) and (item.load_kg or is_to_find(item, layout)))
    is_due = athlete.level == "novice" and week.role in LOAD_ROLES and any(item.sets for item in loaded)
    return layout.words.when_next_load if is_due else ""


def title_of(session: Session) -> str:
    """What the session is about: its title, or the id of its kind if the block gives no title."""
    words = session.title or (session.focus if " " in session.focus else session.focus.replace("-", " "))
    return words[:1].upper() + words[1:]
