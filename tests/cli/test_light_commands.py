"""No command loads what it does not use: a solver takes longer to load than most commands take to answer."""

from __future__ import annotations

import subprocess
import sys

import pytest

from planner.cli import main
from planner.cli.app import COMMANDS
from planner.files.load import load_block
from tests.cli.conftest import CHECKOUT, retested

# What takes time to load, and the floors that only some commands stand on.
HEAVY = ("pydantic", "yaml", "ruamel", "numpy", "ortools", "reportlab", "icalendar", "openpyxl")
FLOORS = ("planner.files", "planner.estimate", "planner.problem", "planner.rules", "planner.solve", "planner.cards")
READS = ("pydantic", "yaml", "ruamel", "planner.files")  # ruamel where a file needs the careful parser
COUNTS = (*READS, "planner.estimate", "planner.problem", "planner.rules")
# The words of a command with its files filled in, and all of the above that it may load.
MAY_LOAD: dict[str, tuple[str, tuple[str, ...]]] = {
    "start": ("start {new}/coach", COUNTS),  # what a template may say is written by the rules
    "new": (
        "new {new}/ana.yaml --name Ana --born 1998-03-02 --mass 71kg --stature 1.75m --reach 2.2m --take-off two-leg "
        "--steps 0 --touches 2.6m --tested 2025-09-01 --target 2.7m --level novice --landing holds --days mon:60 "
        "--gym full-gym",
        COUNTS,
    ),
    "gap": ("gap {demo}", COUNTS),
    "platform": ("platform {new}/no-such.csv", (*READS, "numpy", "planner.estimate")),
    "test": ("test {demo} --show", READS),
    "plan": ("plan {new}/no-such.yaml", COUNTS),  # the solver only once there is something to solve
    "revise": ("revise {new}/no-such.yaml", (*COUNTS, "planner.solve", "ortools", "numpy")),
    "change": ("change {block} w1s1 --sets 1=2 -o {new}/changed.yaml", (*COUNTS, "planner.solve")),
    "cards": ("cards {block} -o {new}/cards.pdf", (*READS, "reportlab", "planner.cards")),
    "calendar": ("calendar {block} -o {new}/block.ics", (*READS, "icalendar")),
    "log": ("log {block} w1s1 --as-planned --log {new}/log.yaml", READS),
    "progress": ("progress {block} --log {log}", (*COUNTS, "numpy")),
    "outcome": ("outcome {block} --athlete {retested}", (*COUNTS, "numpy")),
    "squad": ("squad sheet -o {new}/tests.xlsx", (*READS, "openpyxl", "numpy")),  # which openpyxl takes where it is
    "check": ("check {block}", (*COUNTS, "planner.cards")),  # which texts a block's cards print
    "why": ("why {block} --week 1", (*COUNTS, "planner.solve")),  # of a session or a movement, the solver is asked
    "library": ("library list", (*READS, "planner.estimate")),  # an athlete's units
    "rules": ("rules", COUNTS),  # with a template's numbers
}
SCRIPT = """
import sys
from planner.cli import main
codes = [main(words.split()) for words in sys.argv[2:]]
print("LOADED", max(codes), *[name for name in sys.argv[1].split() if name in sys.modules], file=sys.stderr)
"""


def _loaded(*commands: str) -> tuple[int, set[str]]:
    """The highest exit code, and what of HEAVY and FLOORS was loaded when all commands had ended."""
    arguments = [sys.executable, "-c", SCRIPT, " ".join(HEAVY + FLOORS), *commands]
    found = subprocess.run(arguments, capture_output=True, text=True, cwd=CHECKOUT)
    _, code, *loaded = found.stderr.splitlines()[-1].split()
    return int(code), set(loaded)


def test_every_command_is_looked_at():
    assert set(MAY_LOAD) == set(COMMANDS)


@pytest.mark.parametrize("name", MAY_LOAD)
def test_a_command_loads_only_what_it_uses(name, planned, tmp_path):
    words, allowed = MAY_LOAD[name]
    demo = planned / "templates/athletes/in-season-player.yaml"
    block, log = planned / "block.yaml", tmp_path / "of-one-session.yaml"
    main(["log", str(block), "w1s1", "--as-planned", "--log", str(log)])
    day = load_block(block).require().weeks[-1].sessions[-1].date
    again = retested(demo, tmp_path / "retested.yaml", day, "3.01 m, 3.02 m")
    code, loaded = _loaded(words.format(new=tmp_path, block=block, demo=demo, log=log, retested=again))
    assert code == (1 if "no-such" in words else 0)
    assert loaded <= set(allowed)


def test_help_loads_nothing_heavy():
    assert _loaded("--help", *[f"{name} --help" for name in COMMANDS]) == (0, set())
