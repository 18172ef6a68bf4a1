"""A rule's cases: a kept block, a few edits, and what the audit finds then. They stand in ``<rule id>.yaml``.

A rule also says what its rows and its audit share and which numbers of each template the manual tells. It may say for
whom it has ``teeth`` (tests/solve/test_teeth.py), or why no case can show them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from ruamel.yaml import YAML

from planner.domain.block import Block
from planner.problem.model import Problem
from planner.rules.recount import count_block
from planner.rules.registry import all_rules, rule_by_id
from planner.rules.rule import Breach
from tests.rules.edits import edited
from tests.rules.kept_blocks import changed_problem, kept_block, kept_problem
from tests.solve.demos import problem

FOLDER = Path(__file__).parent
KEYS = {"name", "base", "athlete", "template", "edits", "finds", "says", "silent", "rows"}
_problems: dict[str, Problem] = {}
# Rules whose rows are empty by design (side, order and load follow from what is chosen) say so in their own words.
AUDIT_ONLY = {rule.id for rule in all_rules() if (rule.rows.__doc__ or "").startswith("None:")}
SOME = "some"  # more than none, where the count is not the point


@dataclass(frozen=True)
class Case:
    """``finds``: so many breaches, or None for some. ``in_rows``: whether variables can say what the case edits."""

    rule: str
    name: str
    base: str
    athlete: Mapping[str, Any]
    template: Mapping[str, Any]
    edits: tuple[Mapping[str, Any], ...]
    finds: int | None
    says: tuple[str, ...]
    silent: str | None  # what no sentence may contain
    in_rows: bool

    @property
    def fails(self) -> bool:
        return self.finds != 0

    def problem(self) -> Problem:
        """The same object for every case of the same files, so that it is built once."""
        key = repr((self.base, self.athlete, self.template))
        if key not in _problems:
            changed = self.athlete or self.template
            new = changed_problem(self.base, self.athlete, self.template) if changed else kept_problem(self.base)
            _problems[key] = new
        return _problems[key]

    def block(self) -> Block:
        return edited(kept_block(self.base), kept_problem(self.base), self.edits)

    def breaches(self) -> list[Breach]:
        rule = rule_by_id(self.rule)
        assert rule is not None, f"there is no rule '{self.rule}'"
        return list(rule.audit(count_block(self.block(), self.problem())))


@dataclass(frozen=True)
class Situation:
    """An athlete for whom the rule can matter: a demo with lines of its file changed.

    ``alike``: so many, of movements that are alike, to choose from; ``also``: rules that cannot but break with it.
    """

    demo: str
    athlete: Mapping[str, Any]
    alike: int
    also: tuple[str, ...]

    def problem(self) -> Problem:
        return problem(self.demo, self.athlete)


def case_files() -> list[Path]:
    return sorted(FOLDER.glob("*.yaml"))


def cases_of(path: Path) -> list[Case]:
    lines = _read(path)
    return [_case(lines["rule"], one) for one in lines["cases"]]


def situation_of(rule: str) -> Situation:
    """The rule's ``teeth`` line; the in-season player where it has none."""
    lines = _read(FOLDER / f"{rule}.yaml").get("teeth", {})
    return Situation(
        lines.get("demo", "in-season"), lines.get("athlete", {}), lines.get("alike", 1), tuple(lines.get("also", ()))
    )


def toothless(rule: str) -> str | None:
    """Why no block can be found that breaks the rule, though its rows be left out; None where one must be found."""
    reason: str | None = _read(FOLDER / f"{rule}.yaml").get("toothless")
    return reason


def in_the_manual(template: str) -> dict[str, str]:
    """The numbers that each rule tells of the template, in order: those of its file's ``manual`` (test_manual.py)."""
    told = {path.stem: _read(path).get("manual", {}).get(template) for path in case_files()}
    return {rule: numbers for rule, numbers in told.items() if numbers is not None}


def shares(rule: str) -> dict[str, list[str]]:
    """What the rule's rows and its audit both use, by its kind (tests/architecture/test_rows_and_audits.py)."""
    found: dict[str, list[str]] = _read(FOLDER / f"{rule}.yaml").get("shares", {})
    return found


@cache
def _read(path: Path) -> dict[str, Any]:
    lines: dict[str, Any] = YAML(typ="safe").load(path.read_text("utf-8"))
    assert {"rule", "cases"} <= set(lines) <= {"rule", "manual", "shares", "teeth", "toothless", "cases"}, path.name
    return lines


def all_cases() -> list[Case]:
    return [case for path in case_files() for case in cases_of(path)]


def _case(rule: str, lines: Mapping[str, Any]) -> Case:
    unknown = set(lines) - KEYS
    assert not unknown, f"{rule}: a case has {sorted(unknown)}"
    says = lines.get("says", ())
    return Case(
        rule=rule,
        name=lines["name"],
        base=lines.get("base", "in-season"),
        athlete=lines.get("athlete", {}),
        template=lines.get("template", {}),
        edits=tuple(lines.get("edits", ())),
        finds={"none": 0, SOME: None}.get(lines["finds"], lines["finds"]),
        says=(says,) if isinstance(says, str) else tuple(says),
        silent=lines.get("silent"),
        in_rows=lines.get("rows") != "cannot",
    )
