"""Logs drawn at random on the demos' blocks: read whole, counted as they say, told in every form, never a traceback."""

from __future__ import annotations

import datetime
import random

import pytest

from planner.domain.block import Item, Session
from planner.domain.terms import JOINTS
from planner.domain.training_log import (
    WHY_MISSED,
    LoggedBlock,
    LoggedItem,
    LoggedPain,
    LoggedSession,
    OtherWork,
    TrainingLog,
)
from planner.files.load import load_follow_up
from planner.files.locate import locate_follow_up
from planner.jobs.advised_cards import with_advice
from planner.jobs.follow_block import followed
from planner.jobs.progress_report import progress_report
from planner.report.followed import Followed
from planner.report.progress_data import progress_data
from planner.report.progress_text import progress_text
from tests.cards.invented_block import layout
from tests.solve.demos import DEMOS, solved

SEEDS = range(6)


def drawn(demo: str, seed: int) -> TrainingLog:
    rng = random.Random(f"{demo} {seed}")
    block = solved(demo).block
    sessions = block.sessions
    entries = [
        _entry(session, rng, demo) for session in sessions[: rng.randint(1, len(sessions))] if rng.random() < 0.9
    ]
    entries = entries or [_entry(sessions[0], rng, demo)]
    entries.sort(key=lambda one: one.date or next(s.date for s in sessions if s.id == one.session))
    extra = [OtherWork(date=sessions[0].date, what="match", minutes=70, contacts=60)] if rng.random() < 0.3 else []
    head = LoggedBlock(path="block.yaml", plan_sha256=block.plan_sha256)
    return TrainingLog.model_construct(file="log/1", block=head, sessions=tuple(entries), extra=tuple(extra), note=None)


def _entry(session: Session, rng: random.Random, demo: str) -> LoggedSession:
    if rng.random() < 0.12:
        return LoggedSession.model_construct(session=session.id, done="missed", why=rng.choice(WHY_MISSED))
    pain = [
        LoggedPain.model_construct(
            joint=rng.choice(JOINTS), side=rng.choice([None, "left", "right"]), before=rng.randint(0, 3),
            worst=rng.choice([None, rng.randint(0, 5)]), next_morning=rng.choice([None, rng.randint(0, 5)]),
        )
        for _ in range(rng.choice([0, 0, 0, 1]))
    ]  # fmt: skip
    return LoggedSession.model_construct(
        session=session.id,
        date=session.date + datetime.timedelta(days=rng.choice([0, 0, 0, 1, 2])),
        done="changed",
        written=rng.choice(["same-day", "same-day", "later"]),
        effort=rng.choice([None, rng.randint(0, 10)]),
        minutes=rng.choice([None, rng.randint(5, 120)]),
        items=tuple(_item(item, rng, demo) for item in session.items if rng.random() < 0.5),
        pain=tuple(pain),
        body_mass=rng.choice([None, 70 + rng.random()]),
    )


def _item(item: Item, rng: random.Random, demo: str) -> LoggedItem:
    kind = rng.choice(["sets", "reps", "load", "touch", "other"])
    if kind == "load" and item.load_kg and item.reps and item.sets:
        return LoggedItem.model_construct(
            item=item.id,
            load=round(item.load_kg * rng.uniform(0.85, 1.15), 1),
            reps=tuple(max(0, item.reps - rng.choice([0, 0, 1])) for _ in range(item.sets)),
            reps_in_reserve=tuple(rng.randint(0, 6) for _ in range(rng.randint(0, item.sets))),
        )
    if kind == "touch" and item.tier:
        return LoggedItem.model_construct(item=item.id, touches=tuple(rng.uniform(2.8, 3.2) for _ in range(3)))
    if kind == "reps" and item.reps:
        return LoggedItem.model_construct(
            item=item.id, reps=tuple(rng.randint(0, 12) for _ in range(rng.randint(1, 6)))
        )
    if kind == "other" and item.part != "test":
        movement = rng.choice(sorted(solved(demo).inputs.library.movements))
        return LoggedItem.model_construct(item=item.id, movement=movement, sets=rng.randint(1, 5))
    return LoggedItem.model_construct(item=item.id, sets=rng.randint(0, item.sets + 1))


def told(demo: str, seed: int) -> Followed:
    made = solved(demo)
    rules = load_follow_up(locate_follow_up().path).require()
    return followed(made.block, made.problem, drawn(demo, seed), rules, made.inputs.benchmarks.test_kinds["touch"], [])


@pytest.mark.parametrize("demo", DEMOS)
@pytest.mark.parametrize("seed", SEEDS)
def test_a_drawn_log_is_told_in_every_form(demo: str, seed: int) -> None:
    found = told(demo, seed)
    lines = progress_text(found).splitlines()
    assert max(map(len, lines)) <= 98
    data = progress_data(found)
    assert len(data["sessions"]) == len(found.log.sessions)
    for one in found.lifts:
        assert one.low_kg < one.now_kg < one.high_kg
    if found.coming and not any(course.state == "red" for course in found.pain):
        block, _ = with_advice(found, found.coming[0].date)
        before = {s.id: s for s in found.block.sessions if s.date <= found.through}
        after = {s.id: s for s in block.sessions}
        assert all(after[name] == session for name, session in before.items()), "what is past is as it was"
    assert progress_report(found, layout()).startswith(b"%PDF-")


@pytest.mark.parametrize("demo", DEMOS)
def test_what_is_counted_is_what_the_entries_say(demo: str) -> None:
    """An own count of working sets from the entries, item by item, against the weeks' sums."""
    for seed in SEEDS:
        found = told(demo, seed)
        library = found.problem.library
        expected = 0
        for entry in found.log.sessions:
            planned = next(s for s in found.block.sessions if s.id == entry.session)
            lines = {line.item: line for line in entry.items}
            for item in planned.items if entry.done != "missed" else ():
                line = lines.get(item.id)
                sets = item.sets if line is None else line.sets
                if line is not None and sets is None:
                    sets = len(line.reps) or item.sets
                movement = item.movement if line is None or line.movement is None else line.movement
                if item.part != "test" and library[movement].kind in ("lift", "hold"):
                    expected += sets or 0
        assert sum(week.done.working_sets for week in found.weeks) == expected
