"""The coming sessions as they are to be printed: loads by the log's advice, each with what it rests on.

The block's file is not touched: this is a copy for paper.
"""

from __future__ import annotations

import datetime

from planner.domain.block import HALF_IN_EACH_HAND, Block, Item, Session
from planner.domain.findings import Finding, UserError
from planner.past.jump_days import are_low
from planner.past.load_advice import LoadAdvice
from planner.prescription.item_words import mass
from planner.report.advice_text import last_time
from planner.report.followed import Followed
from planner.report.progress_text import pain_words


def with_advice(followed: Followed, since: datetime.date) -> tuple[Block, list[Finding]]:
    """The block with advice on its sessions from ``since`` on, and what to be warned of.

    Raises UserError where pain rules out any card.
    """
    warnings = _pain(followed)
    first = followed.coming[0].id if followed.coming else None
    cut = any(are_low(line, followed.rules.jumps) for line in followed.jumps)
    coming = {session.id for session in followed.coming if session.date >= since}
    weeks = []
    for week in followed.block.weeks:
        sessions = [
            _advised(session, followed, cut_jumps=cut and session.id == first) if session.id in coming else session
            for session in week.sessions
        ]
        weeks.append(week.model_copy(update={"sessions": tuple(sessions)}))
    return followed.block.model_copy(update={"weeks": tuple(weeks)}), warnings


def _advised(session: Session, followed: Followed, *, cut_jumps: bool) -> Session:
    advice = {one.item.id: one for one in followed.load_advice(session)}
    items = [_with_load(item, advice[item.id], followed) if item.id in advice else item for item in session.items]
    if cut_jumps:
        items = [_fewer_jumps(item, followed.rules.jumps.keep_share) for item in items]
    return session.model_copy(update={"items": tuple(items)})


def _with_load(item: Item, advice: LoadAdvice, followed: Followed) -> Item:
    athlete = followed.block.for_athlete
    said = last_time(advice, athlete)
    parts = [said[0].upper() + said[1:]]
    if advice.changes_load and item.load_kg is not None:
        parts.append(f"planned for today: {mass(item.load_kg, athlete)}")
    if advice.move == "one-rep-more":
        parts.append("one rep more in each set")
    if advice.why_held:
        parts.append(advice.why_held)
    if item.note and item.load_kg is not None and item.note != HALF_IN_EACH_HAND:
        parts.append(item.note)  # how to lift it; how to find a load is answered by the load
    percent = None if advice.changes_load else item.percent
    return item.model_copy(update={"load_kg": advice.load_kg, "percent": percent, "note": "; ".join(parts)})


def _fewer_jumps(item: Item, keep_share: float) -> Item:
    """At least one set stays."""
    if item.tier != "high" or not item.sets or item.part == "test":
        return item
    sets = max(1, int(item.sets * keep_share))
    note = f"jumps were low: {item.sets} sets were planned"
    return item.model_copy(update={"sets": sets, "contacts": item.contacts * sets // item.sets, "note": note})


def _pain(followed: Followed) -> list[Finding]:
    """Amber is a warning; red refuses: a card would send the athlete to jump."""
    warnings, refused = [], []
    for course in followed.pain:
        if course.state == "red":
            refused.append(Finding("", 0, 0, "pain", pain_words(course, followed).rstrip("."), "see a clinician"))
        elif course.step < len(followed.rules.pain.steps) - 1:
            hint = "these cards do not take it into account: leave out what is harder than that"
            warnings.append(Finding("", 0, 0, "pain", pain_words(course, followed).rstrip("."), hint, "warning"))
    if refused:
        raise UserError(refused)
    return warnings
