"""A fixed sample of the squad's benchmarks; it plans nothing."""

from __future__ import annotations

from tests.benchmarks.squad import slots


def test_drawn_halls_hold_and_refusals_are_confirmed() -> None:
    found = slots(range(2, 9))
    assert found["optimal"] + found["impossible"] == 7
    assert found["least costs that HiGHS confirms"] == found["optimal"]
    assert found["refusals that HiGHS confirms"] == found["impossible"] > 0
    assert found["breaches"] == found["other costs"] == found["refusals not confirmed"] == 0
