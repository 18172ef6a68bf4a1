"""Planned blocks with their athletes, one a line of a file, so that checks can be revised without planning.

A block is kept whole, as ``plan --json`` has it; an athlete without a block is kept with the reason.
"""

from __future__ import annotations

import json
import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from planner.audit import audit
from planner.domain.block import Block
from planner.domain.findings import UserError
from planner.files.dump import block_to_json
from planner.solve.found_plan import BudgetSpent, NoBlock
from tests.benchmarks.coach_draws import Drawn, Lines, athlete_of
from tests.benchmarks.coach_draws import drawn as drawn_for
from tests.coach.block_read import Read
from tests.independence.drawn import library, plain, template
from tests.solve.demos import solve_for

SHIPPED = ("adult-one-leg-jumper", "youth-two-leg-jumper", "in-season-player")
# The demos on their own templates, then on the long one and in season.
DEMOS = [
    *zip(SHIPPED, ("eight-week", "youth-eight-week", "in-season-four-week"), strict=True),
    *((who, "twelve-week") for who in SHIPPED),
    *((who, "in-season-four-week") for who in SHIPPED[:1]),
]
ADULT = SHIPPED[0]
# The adult demo with a test or a joint changed: corners of the checks that a draw seldom hits.
CORNERS: dict[str, tuple[Mapping[str, object], Mapping[str, object]]] = {
    "squat just under the gate": ({"movement": "back-squat"}, {"load": "100 kg"}),
    "squat far over": ({"movement": "back-squat"}, {"load": "170 kg"}),
    "calf 30 % short": ({"movement": "loaded-one-leg-calf-raise"}, {"load": "5 kg"}),
    "sore Achilles": ({}, {"joints": [{"joint": "achilles-ankle", "side": "left", "pain": 2}]}),
}


@dataclass(frozen=True)
class Kept:
    """One athlete (plain data), the template's name, and the block (plain data) or why there is none."""

    key: str
    about: str
    athlete: Lines
    template: str
    seconds: float
    block: Mapping[str, Any] | None
    refused: str | None = None
    faults: Sequence[str] = ()  # what the audit found in the block when it was planned


def demos() -> dict[str, Callable[[], Drawn]]:
    """Each demo by its key, such as ``adult-one-leg-jumper on twelve-week``."""
    return {f"{who} on {shape}": lambda who=who, shape=shape: _demo(who, shape) for who, shape in DEMOS}  # type: ignore[misc]


def corners() -> dict[str, Callable[[], Drawn]]:
    """The adult with a line changed, by its key, such as ``adult-one-leg-jumper, sore Achilles``."""
    return {f"{ADULT}, {name}": lambda name=name: _corner(name) for name in CORNERS}  # type: ignore[misc]


def _demo(who: str, shape: str) -> Drawn:
    as_text: Lines = json.loads(json.dumps(plain(who), default=str))  # dates become text
    return Drawn(as_text, shape, f"demo, {shape}")


def _corner(name: str) -> Drawn:
    """The adult with the tests that match changed, or the file itself where none are named."""
    which, changes = CORNERS[name]
    shipped = _demo(ADULT, "eight-week")
    if not which:
        return Drawn({**shipped.athlete, **changes}, shipped.template, f"demo, {name}")
    tests = [{**t, **changes} if which.items() <= t.items() else t for t in shipped.athlete["tests"]]
    return Drawn({**shipped.athlete, "tests": tests}, shipped.template, f"demo, {name}")


def seeds(first: int, last: int) -> dict[str, Callable[[], Drawn]]:
    return {f"seed {seed}": lambda seed=seed: drawn_for(seed) for seed in range(first, last)}  # type: ignore[misc]


def keep(wanted: Mapping[str, Callable[[], Drawn]], at: Path, *, tell: Callable[[str], None]) -> list[Kept]:
    """A line for every key: those in the file as they are there, the others planned and added to it."""
    done = {one.key: one for one in read(at)}
    _without_a_cut_line(at)
    with at.open("a", encoding="utf-8") as file:
        for key, draw in wanted.items():
            if key not in done:
                done[key] = planned(key, draw())
                file.write(json.dumps(asdict(done[key])) + "\n")
                file.flush()
                tell(f"{key}: {done[key].refused or 'a block'} in {done[key].seconds:.1f} s; {done[key].about}")
    return [done[key] for key in wanted]


def planned(key: str, draw: Drawn) -> Kept:
    start, block, refused, faults = time.process_time(), None, None, []
    try:
        found = solve_for(draw.inputs)
        block = json.loads(block_to_json(found.block))
        faults = [breach.sentence for breach in audit(found.block, found.problem) if breach.hard]
    except UserError as error:
        refused = "; ".join(finding.message for finding in error.findings)
    except (NoBlock, BudgetSpent) as error:
        refused = type(error).__name__
    seconds = round(time.process_time() - start, 1)
    return Kept(key, draw.about, draw.athlete, draw.template, seconds, block, refused, faults)


def _without_a_cut_line(at: Path) -> None:
    """A run that was ended while it wrote leaves half a line, which no other may follow."""
    text = at.read_text("utf-8") if at.exists() else ""
    if text and not text.endswith("\n"):
        at.write_text(text[: text.rfind("\n") + 1], "utf-8")


def read(at: Path) -> list[Kept]:
    if not at.exists():
        return []
    lines = at.read_text("utf-8").split("\n")  # what follows the last line's end was cut while it was written
    return [Kept(**json.loads(line)) for line in lines[:-1] if line]


def read_of(kept: Kept) -> Read:
    """A kept block with its athlete, the shipped library and its template, for the checks."""
    block = Block.model_validate_json(json.dumps(kept.block))
    return Read(block, athlete_of(kept.athlete), library(), template(kept.template))
