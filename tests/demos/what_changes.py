"""What changes in a demo's block when one of its tests changes: emphasis, bands, sets, movements. Run as a command:

    python -m tests.demos.what_changes [DEMO] [--fresh]

Each demo is planned as shipped, then again with one test changed, as near to the first block as its new bands allow
(``plan --near``), so that what differs is what the test asks for; ``--fresh`` plans anew.
"""

from __future__ import annotations

import copy
import sys
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from planner.audit import audit
from planner.domain.block import Block
from planner.domain.terms import QUALITIES, Quality
from planner.problem.from_files import Inputs, estimate_and_problem
from planner.problem.model import Problem
from planner.report.changes import changes
from planner.solve.make_block import References, make_block
from planner.solve.near import solve_near
from tests.solve.demos import (
    DEMOS,
    ROOT,
    SOMEWHERE,
    athlete,
    shipped_benchmarks,
    shipped_library,
    solve_for,
    solved,
    template,
)

Lines = dict[str, Any]
Edit = Callable[[list[Lines]], None]
PLACES = References(SOMEWHERE, SOMEWHERE, SOMEWHERE, SOMEWHERE)


@dataclass(frozen=True)
class Case:
    """One changed test, or a changed target, of one demo."""

    demo: str
    name: str
    edit: Edit | None = None
    touch: str | None = None  # to be touched


def _set(kind: str, changes_: Mapping[str, Any], **which: Any) -> Edit:
    """Change fields of the demo's tests of a kind, those only whose other fields are as told."""

    def edit(tests: list[Lines]) -> None:
        found = [t for t in tests if t["kind"] == kind and all(t.get(key) == value for key, value in which.items())]
        assert found, f"the demo has no such {kind}"
        for test in found:
            test.update(copy.deepcopy(dict(changes_)))

    return edit


SQUAT, CALF = {"movement": "back-squat"}, {"movement": "loaded-one-leg-calf-raise", "side": "left"}
QUICK = [{"contact": "0.205 s", "flight": "0.50 s"}, {"contact": "0.206 s", "flight": "0.50 s"}]
SLOW = [["2.12 s", "3.58 s", "5.03 s"], ["2.10 s", "3.54 s", "4.99 s"]]
CASES = (
    Case("adult", "weaker squat, 110 kg x 4 and not 122.5", _set("lift", {"load": "110 kg"}, **SQUAT)),
    Case("adult", "squat under 1.5 body masses, 80 kg x 4", _set("lift", {"load": "80 kg"}, **SQUAT)),
    Case("adult", "weaker calf, 15 kg x 8 and not 30 on the left", _set("lift", {"load": "15 kg"}, **CALF)),
    Case("adult", "calf as strong as it takes, 45 kg x 8 on the left", _set("lift", {"load": "45 kg"}, **CALF)),
    Case("adult", "slower sprint, flying 10 m in 1.42 s", _set("flying-sprint", {"trials": ["1.42 s", "1.43 s"]})),
    Case("adult", "target 3 cm higher, 3.25 m", touch="3.25 m"),
    Case(
        "adult",
        "touch measured again, 3.16 m",
        _set("touch", {"trials": ["3.15 m", "3.16 m"]}, run_up=True),
    ),
    Case("in-season", "squat under 1.5 body masses, 77.5 kg x 5", _set("lift", {"load": "77.5 kg"}, **SQUAT)),
    Case("in-season", "weaker calf, 18 strict raises", _set("heel-raise", {"form": "strict", "left": 18, "right": 22})),
    Case("in-season", "quicker drop jump, contact 205 ms", _set("drop-jump", {"trials": QUICK})),
    Case("in-season", "target 3 cm higher, 3.04 m", touch="3.04 m"),
    Case("in-season", "touch measured again, 3.00 m", _set("touch", {"trials": ["3.00 m", "3.00 m"]}, run_up=True)),
    Case("youth", "weaker squat, goblet 12.5 kg x 7", _set("lift", {"load": "12.5 kg"}, movement="goblet-squat")),
    Case("youth", "weaker calf, 17 strict raises on the left", _set("heel-raise", {"left": 17, "right": 19})),
    Case("youth", "slower sprint, 20 to 30 m in 1.45 s", _set("sprint-splits", {"trials": SLOW})),
    Case("youth", "target 3 cm higher, 2.71 m", touch="2.71 m"),
    Case("youth", "touch measured again, 2.64 m", _set("touch", {"trials": ["2.64 m", "2.64 m"]})),
)


@dataclass(frozen=True)
class Made:
    """A block with what it was made from."""

    block: Block
    problem: Problem
    tilts: Mapping[Quality, float]

    def bands(self, quality: Quality) -> list[tuple[float, float]]:
        """Working sets of each week, lowest and highest; sprint efforts for speed."""
        found = [
            week.bands.sprint_efforts if quality == "speed-exposure" else week.bands.working_sets[quality]
            for week in self.block.weeks
        ]
        return [(band.low, band.high) for band in found]

    def band(self, quality: Quality) -> tuple[float, float]:
        """That of the reference week, the fullest."""
        return self.bands(quality)[self.problem.template.reference_week - 1]

    def dose(self, quality: Quality) -> float:
        """Working sets of the whole block; sprint efforts for speed."""
        weeks = self.block.weeks
        if quality == "speed-exposure":
            return sum(week.totals.sprint_efforts for week in weeks)
        return sum(week.totals.working_sets[quality] for week in weeks)

    @property
    def most_intense(self) -> int:
        return sum(week.totals.contacts["high"] for week in self.block.weeks)

    @property
    def shock_jumps(self) -> int:
        """Sets of high-tier jumps other than the athlete's own off the run-up, and the test's."""
        items = [item for session in self.block.sessions for item in session.items]
        return sum(item.sets for item in items if item.tier == "high" and item.part == "jump")

    @property
    def is_sound(self) -> bool:
        """No shortfall, proved, and nothing that the audit finds."""
        stage = self.block.proof.stages[0]
        return (stage.status, stage.objective) == ("optimal", 0) and audit(self.block, self.problem) == []


def case_inputs(case: Case) -> Inputs:
    """The demo's inputs with the case's change."""
    who, shape = DEMOS[case.demo]
    lines: Lines = {}
    if case.edit is not None:
        tests = copy.deepcopy(_shipped_tests(who))
        case.edit(tests)
        lines["tests"] = tests
    if case.touch is not None:
        lines["target"] = {"touch": case.touch}
    return Inputs(athlete(who, lines), shipped_library(), template(shape), shipped_benchmarks())


@cache
def _shipped_tests(who: str) -> list[Lines]:
    from ruamel.yaml import YAML

    found: list[Lines] = YAML(typ="safe").load((ROOT / f"templates/athletes/{who}.yaml").read_text("utf-8"))["tests"]
    return found


def as_shipped(demo: str) -> Made:
    made = solved(demo)
    return Made(made.block, made.problem, made.problem.tilts)


def make(case: Case, near: Block | None = None) -> Made:
    given = case_inputs(case)
    if near is None:
        made = solve_for(given)
        return Made(made.block, made.problem, made.problem.tilts)
    result, problem = estimate_and_problem(given)
    return Made(make_block(solve_near(problem, near), result.gap, PLACES), problem, problem.tilts)


def told(case: Case, *, fresh: bool = False, most_lines: int = 6) -> list[str]:
    """What a coach would be told: emphasis, bands and dose that moved, and which days and sets of the block."""
    old = as_shipped(case.demo)
    new = make(case, near=None if fresh else old.block)
    lines = [f"{case.demo}: {case.name}", *_gap_line(old, new)]
    for quality in QUALITIES:
        before, after = old.tilts[quality], new.tilts[quality]
        moved = (old.band(quality), old.dose(quality)) != (new.band(quality), new.dose(quality))
        if before != after or moved:
            unit = "sprints" if quality == "speed-exposure" else "sets"
            bands = f"{_band(old.band(quality))} -> {_band(new.band(quality))}"
            doses = f"{old.dose(quality):g} -> {new.dose(quality):g}"
            factors = f"emphasis x {before:.2f} -> {after:.2f}"
            lines.append(f"  {quality}: {factors}; fullest week {bands} {unit}; block {doses} {unit}")
    if old.most_intense != new.most_intense:
        lines.append(f"  most intense landings of the block: {old.most_intense} -> {new.most_intense}")
    found = changes(old.block, new.block)
    lines.append(f"  {len(found)} changes from the block before{':' if found else ''}")
    lines += [f"    {line}" for line in found[:most_lines]]
    lines.append(f"  every band met, proved, audit clean: {'yes' if new.is_sound else 'NO'}")
    return lines


def _gap_line(old: Made, new: Made) -> list[str]:
    before, after = (made.block.gap.gap.mean_ground_force_N for made in (old, new))
    return [f"  force gap {before:.0f} -> {after:.0f} N"] if round(before) != round(after) else []


def _band(band: tuple[float, float]) -> str:
    return f"{band[0]:g}-{band[1]:g}"


if __name__ == "__main__":
    demos = [word for word in sys.argv[1:] if not word.startswith("-")] or list(DEMOS)
    for one in CASES:
        if one.demo in demos:
            print("\n".join(told(one, fresh="--fresh" in sys.argv)), flush=True)
