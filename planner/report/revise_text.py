"""What a revised block changes, in a coach's words: cards to print again, days, movements and sets, each with why."""

from __future__ import annotations

import datetime
from collections.abc import Sequence

from planner.domain.block import Block, Proof, Session
from planner.domain.terms import Day
from planner.report.terminal import first_of, wrap
from planner.rules.figure_words import counted
from planner.rules.places import DAY_NAMES, weeks_in_words
from planner.rules.rule import Address
from planner.solve.reasons import Change

MOST_CARDS, MOST_CHANGES, MOST_SHORTFALLS = 16, 24, 8  # more of them are only counted


def revise_text(old: Block, new: Block, changes: Sequence[Change], moved: dict[Day, Day]) -> str:
    """The answer in a few lines, the changes with their reasons, what is missed and what is proved."""
    parts = [wrap(summary(old, new, changes, moved))]
    parts += [
        wrap(f"{DAY_NAMES[day]} becomes {DAY_NAMES[now]}: the athlete's training days", "  ")
        for day, now in moved.items()
    ]
    parts += [wrap(change_in_words(change), "  ") for change in changes[:MOST_CHANGES]]
    if len(changes) > MOST_CHANGES:
        parts.append(f"  and {len(changes) - MOST_CHANGES} more")
    parts += (
        [wrap(f"Left by what was done so far: {one.sentence}.", "  ") for one in new.revision.forced]
        if new.revision
        else []
    )
    parts += [wrap(f"Weekly range missed: {one.sentence}.", "  ") for one in new.shortfalls[:MOST_SHORTFALLS]]
    if len(new.shortfalls) > MOST_SHORTFALLS:
        parts.append(f"  and {len(new.shortfalls) - MOST_SHORTFALLS} more, all listed in the block")
    parts.append(wrap(_proved(new.proof)))
    return "\n".join(parts) + "\n"


def summary(old: Block, new: Block, changes: Sequence[Change], moved: dict[Day, Day]) -> str:
    """``3 cards to print again: w4s1, w4s3, w5s1; no day moved; 1 movement changed; sets of 2 changed.``"""
    cards = cards_to_print(old, new)
    again = f"{counted(len(cards), 'card')} to print again" + (f": {first_of(cards, MOST_CARDS)}" if cards else "")
    movements = {(c.day, c.out, c.into) for c in changes if c.sets is None and not c.shape}
    sets = sum(1 for change in changes if change.sets is not None)
    swapped = sum(1 for change in changes if change.shape)
    said = [again, f"{counted(len(moved), 'day')} moved" if moved else "no day moved"]
    said += [f"{counted(swapped, 'day')} with another kind of session"] if swapped else []
    said += [f"{counted(len(movements), 'movement')} changed" if movements else "no movement changed"]
    said += [f"sets changed in {counted(sets, 'place')}"] if sets else []
    loads = len(other_loads(old, new))
    said += [f"other loads alone on {counted(loads, 'card')}"] if loads else []
    return "; ".join(said) + "."


def cards_to_print(old: Block, new: Block) -> list[str]:
    """Ids of the sessions still to come whose card is not the one that was printed."""
    first_day = new.revision.first_day if new.revision is not None else datetime.date.min
    before = {session.id: session for session in old.sessions}
    to_come = [session for session in new.sessions if session.date >= first_day]
    return [session.id for session in to_come if not _same_card(before.get(session.id), session)]


def other_loads(old: Block, new: Block) -> list[str]:
    """Ids of the sessions still to come that have other loads and are else the same."""
    before = {session.id: session for session in old.sessions}
    return [s.id for s in new.sessions if s != before.get(s.id) and _same_card(before.get(s.id), s)]


def _same_card(old: Session | None, new: Session) -> bool:
    """Whether the card says the same but for loads, which every new card brings up to date."""
    return old is not None and _without_loads(old) == _without_loads(new)


def _without_loads(session: Session) -> Session:
    no_load = {"load_kg": None, "percent": None, "reps": None, "reps_in_reserve": None, "note": None}
    items = tuple(item.model_copy(update=no_load) if item.implement is not None else item for item in session.items)
    return session.model_copy(update={"items": items})


def change_in_words(change: Change) -> str:
    """``weeks 4 and 5, Thursday: Back squat instead of Front squat: it loads the knee hard``."""
    where = f"{weeks_in_words([Address(week=week) for week in change.weeks])}, {DAY_NAMES[change.day]}"
    return f"{where}: {_what(change)}: {change.because}"


def _what(change: Change) -> str:
    if change.shape is not None:
        return f"the session becomes '{change.shape}'"
    if change.sets is not None:
        return f"{change.out} {change.sets[0]} -> {change.sets[1]} sets"
    if change.out is not None and change.into is not None:
        return f"{change.into} instead of {change.out}"
    return f"{change.out} out" if change.out is not None else f"{change.into} in"


def _proved(proof: Proof) -> str:
    least, fewest = (next((s for s in proof.stages if s.name == name), None) for name in ("bands", "changes"))
    said = []
    if least is not None and least.status == "optimal":
        said.append("proved: no rest of this block comes closer to the weekly ranges")
    elif least is not None:
        points = f"{least.objective:g} points over or under, at best {least.bound:g}"
        said.append(f"not proved: a rest that comes closer may exist ({points})")
    if fewest is not None and fewest.status == "optimal":
        said.append(f"proved: no such rest changes less ({fewest.objective:g} {fewest.unit})")
    elif fewest is not None and fewest.objective is not None:
        said.append(
            f"not proved: one that changes less may exist ({fewest.objective:g} {fewest.unit}, at best {fewest.bound})"
        )
    return " ".join(f"{one[0].upper()}{one[1:]}." for one in said)
