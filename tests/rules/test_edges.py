"""Where a rule's limit begins to hold, tried on both sides of it."""

from __future__ import annotations

import pytest

from planner.domain.terms import TIERS
from planner.rules.session_shape import home
from planner.rules.taper import Taper
from tests.solve.demos import problem, shipped_library, template


@pytest.mark.parametrize("highest", TIERS)
def test_a_shape_takes_jumps_up_to_its_highest_tier_and_none_above(highest: str) -> None:
    shape = next(one for one in template("eight-week").shapes if any(part.part == "jump" for part in one.parts))
    shape = shape.model_copy(update={"highest_tier": highest})
    places = {part.part: part for part in shape.parts if not part.patterns}
    jumps = [one for one in shipped_library().movements.values() if one.jump is not None and one.part in places]
    assert {one.jump.tier for one in jumps if one.jump} == set(TIERS)
    for movement in jumps:
        allowed = TIERS.index(movement.jump.tier) <= TIERS.index(highest)  # type: ignore[union-attr]
        assert (home(shape, movement) is not None) == allowed, movement.id


@pytest.mark.parametrize(("what", "aim"), [("sprints", 6), ("working sets", 20), ("contacts", 59)])
def test_a_taper_has_room_for_one_more_only_where_the_reference_week_aims_at_few(what: str, aim: int) -> None:
    """The aims are those of the in-season player's third week; a row is in thousandths."""
    for small, room in ((aim, 0), (aim + 1, 1000)):
        rows = Taper().rows(problem("in-season", {}, {"taper": {"small": small}}))
        of_it = [row for row in rows if str(row.at) == f"w4/{what}"]
        assert [row.high for row in of_it if row.high is not None] == [room]
        assert [row.low for row in of_it if row.low is not None] == [-room]
