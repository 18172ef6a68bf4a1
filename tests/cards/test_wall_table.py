"""The wall sheet of a day and a hall: who starts and who is where, quarter by quarter, by hand."""

from __future__ import annotations

import pytest

from planner.cards.wall_sheet import Stay, wall_table

AT_16 = 16 * 60


def test_each_quarter_says_who_starts_and_who_is_at_each_station() -> None:
    """Ana begins at 16:20, goes to the rack from 16:30 to 16:45; Ben begins at 16:30 and shares it from 16:40 on."""
    starts = [(AT_16 + 20, "Ana"), (AT_16 + 30, "Ben")]
    stays = [
        Stay("Ana", "runway", AT_16 + 20, AT_16 + 30),
        Stay("Ana", "rack", AT_16 + 30, AT_16 + 45),
        Stay("Ben", "rack", AT_16 + 40, AT_16 + 46),
        Stay("Ben", "rack", AT_16 + 46, AT_16 + 50),
    ]
    table = wall_table("Monday", "Gym", ["runway", "rack"], starts, stays)
    assert list(table.heads) == ["", "starts", "runway", "rack"]
    assert [list(row) for row in table.rows] == [
        ["16:15", "Ana 16:20", "Ana", ""],
        ["16:30", "Ben", "", "Ana, Ben"],
        ["16:45", "", "", "Ben"],
    ]
    assert table.shares == pytest.approx([0.05, 0.95 / 3, 0.95 / 3, 0.95 / 3])


def test_a_start_without_a_station_has_its_quarter_all_the_same() -> None:
    table = wall_table("Monday", "Gym", ["rack"], [(AT_16, "Ana")], [])
    assert [list(row) for row in table.rows] == [["16:00", "Ana", ""]]
