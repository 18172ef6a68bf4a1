"""Makes the demo squad's spreadsheet anew: ``python -m tests.squads.renew_demo``."""

from __future__ import annotations

from pathlib import Path

from planner.jobs.new_squad_sheet import filled_sheet
from tests.squads.drawn import battery, rows

DEMO = Path(__file__).parents[2] / "templates" / "squads" / "demo-squad.xlsx"
DEMO_SIZE, DEMO_SEED = 24, 1


def demo_sheet() -> bytes:
    return filled_sheet(battery(), (), rows(DEMO_SIZE, DEMO_SEED))


if __name__ == "__main__":
    DEMO.write_bytes(demo_sheet())
