"""A block is as solved until a value in it changes; a field that a later version adds changes nothing."""

from __future__ import annotations

from planner.domain.block import Block, Item
from planner.files.digest import is_as_solved, plan_digest
from tests.cards.invented_block import block


class LaterItem(Item):
    effort: str | None = None


def test_any_changed_value_shows():
    solved = block()
    solved = solved.model_copy(update={"plan_sha256": plan_digest(solved)})
    assert is_as_solved(solved)
    assert is_as_solved(Block.model_validate(solved.model_dump()))
    assert not is_as_solved(solved.model_copy(update={"seed": solved.seed + 1}))
    week = solved.weeks[0]
    item = week.sessions[0].items[0]
    for change in ({"sets": item.sets + 1}, {"rest_s": 7}, {"note": "an edit"}, {"contacts": item.contacts + 1}):
        edited = item.model_copy(update=change)
        session = week.sessions[0].model_copy(update={"items": (edited, *week.sessions[0].items[1:])})
        weeks = (week.model_copy(update={"sessions": (session, *week.sessions[1:])}), *solved.weeks[1:])
        assert not is_as_solved(solved.model_copy(update={"weeks": weeks})), change


def test_a_field_added_later_leaves_old_blocks_as_solved():
    item = block().weeks[0].sessions[0].items[0]
    now = item.model_dump_json(exclude_defaults=True)
    assert LaterItem(**item.model_dump()).model_dump_json(exclude_defaults=True) == now
