"""A revised block as the rules see it: the past as it was done, and only what is still to come is judged."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterable

from planner.domain.block import Block, Item, PastItem, PastSession, Session
from planner.domain.training_log import LoggedItem
from planner.past.done import done_item
from planner.problem.model import Problem
from planner.rules.recount import count_block
from planner.rules.rule import Address, Breach, Rule

FORCED = "; what was done before leaves no other way"


def as_done(block: Block, problem: Problem) -> Block:
    """The block with its past as it was done, missed sessions without a set; what is still to come is as planned."""
    if block.revision is None:
        return block
    told = {one.session: one for one in block.revision.done}
    return with_sessions(block, lambda s: _done(s, told[s.id], problem) if s.id in told else s)


def past_only(block: Block, problem: Problem) -> Block:
    """As ``as_done``, without the sessions that are still to come."""
    return with_sessions(as_done(block, problem), lambda s: s if s.date < problem.first_day else None)


def with_sessions(block: Block, change: Callable[[Session], Session | None]) -> Block:
    """The block with each session changed, or left out where that gives None."""
    weeks = tuple(
        week.model_copy(update={"sessions": tuple(new for s in week.sessions if (new := change(s)) is not None)})
        for week in block.weeks
    )
    return block.model_copy(update={"weeks": weeks})


def _done(session: Session, told: PastSession, problem: Problem) -> Session:
    if told.missed is not None:
        none = {"sets": 0, "contacts": 0, "extra_set": None}
        return session.model_copy(update={"items": tuple(i.model_copy(update=none) for i in session.items)})
    changed = {one.item: one for one in told.items}
    items = tuple(_done_item(i, changed[i.id], problem) if i.id in changed else i for i in session.items)
    return session.model_copy(update={"date": told.date or session.date, "items": items})


def _done_item(item: Item, told: PastItem, problem: Problem) -> Item:
    """The item as done. Landings are counted in whole sets of the plan, begun ones too, as the rows count them."""
    logged = LoggedItem(item=item.id, movement=told.movement, sets=told.sets)
    done = done_item(item, logged, problem.library, problem.athlete.take_off)
    a_set = item.contacts // item.sets if item.sets and told.movement is None else 0
    sets = -(-told.contacts // a_set) if a_set else told.sets
    return done.model_copy(update={"sets": sets, "contacts": sets * a_set if a_set else told.contacts})


def judge(block: Block, problem: Problem, rules: Iterable[Rule]) -> list[Breach]:
    """What the rules' audits find in what is still to come, with what was done as its past.

    A breach of the past alone is left out. One that the block says the past forces is allowed, and says so.
    """
    rules, plan = list(rules), count_block(as_done(block, problem), problem)
    found = [breach for rule in rules for breach in rule.audit(plan)]
    if block.revision is None:
        return found
    before = count_block(past_only(block, problem), problem)
    old = {(breach.rule, breach.sentence) for rule in rules for breach in rule.audit(before)}
    forced = {(one.rule, one.sentence) for one in block.revision.forced}
    still = [b for b in found if (b.rule, b.sentence) not in old or not is_over(block, problem, b.at)]
    return [_allowed(breach) if (breach.rule, breach.sentence) in forced else breach for breach in still]


def _allowed(breach: Breach) -> Breach:
    return dataclasses.replace(breach, hard=False, sentence=breach.sentence + FORCED)


def is_over(block: Block, problem: Problem, at: Address) -> bool:
    """Whether an address is before the first day that a revised block plans."""
    if at.session is not None:
        return any(s.id == at.session and s.date < problem.first_day for s in block.sessions)
    return problem.is_over(at)
