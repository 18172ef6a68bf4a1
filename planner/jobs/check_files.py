"""The files floor's checker, with blocks held to the rules and logs to their blocks, which are above that floor."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from pathlib import Path
from typing import get_args

from pydantic import BaseModel

from planner.domain.athlete import Athlete
from planner.domain.card_layout import CardLayout
from planner.domain.findings import Finding, FindingLevel, UserError
from planner.domain.template import LimitSections
from planner.domain.training_log import TrainingLog
from planner.files.document import Loaded
from planner.files.figures_read import readings
from planner.files.file_checker import Checker
from planner.files.load import load_benchmarks, then
from planner.files.locate import locate_benchmarks
from planner.jobs.changed_athlete import too_sore
from planner.jobs.left_out import tested_without_equipment
from planner.jobs.many_files import is_of_kind
from planner.jobs.printable_texts import unprintable_athlete, unprintable_layout, unprintable_movements
from planner.rules.own_limits import own_limits_findings
from planner.rules.registry import all_rules


class FileChecker(Checker):
    """Checks files, folders, blocks and their logs; each library is read once."""

    def __init__(self, library: str | None = None, *, verbose: bool = False) -> None:
        """``verbose``: also a note on each figure of an athlete's file that is written in a form of its own."""
        super().__init__(library, [rule.id for rule in all_rules()])
        self._verbose = verbose

    def _check_athlete(self, loaded: Loaded[Athlete]) -> Loaded[Athlete]:
        """Also tests that the gap would not believe, and lifts without their equipment, on their line."""
        found = then(then(super()._check_athlete(loaded), unprintable_athlete), _not_believed)
        found = then(found, too_sore)
        if (library := self._library_near(loaded.path).value) is not None:
            found = then(found, lambda one: tested_without_equipment(one, library))
        return then(found, readings) if self._verbose else found

    def _phases_after(self, loaded: Loaded[BaseModel], path: Path, shown: str) -> Sequence[Finding]:
        if isinstance(loaded.value, LimitSections):
            return [*super()._phases_after(loaded, path, shown), *own_limits_findings(loaded)]
        if isinstance(loaded.value, CardLayout):
            return [*super()._phases_after(loaded, path, shown), *unprintable_layout(loaded, loaded.value)]
        if not isinstance(loaded.value, TrainingLog):
            return super()._phases_after(loaded, path, shown)
        from planner.jobs.check_log import check_log

        return check_log(path, shown, self._load)

    def _check_library(self, folder: Path, shown: str) -> list[Finding]:
        return [*super()._check_library(folder, shown), *unprintable_movements(self._load(folder, shown))]

    def _check_file(self, path: Path, shown: str) -> Sequence[Finding]:
        if not path.is_file() or not is_of_kind(path, "block"):
            return super()._check_file(path, shown)
        from planner.jobs.check_block import check_block

        return check_block(path, shown, self._load)


def verdict(findings: Sequence[Finding]) -> str:
    """``fine``, or how many findings of each level."""
    counts = Counter(finding.level for finding in findings)
    levels = [level for level in get_args(FindingLevel) if counts[level]]
    said = ", ".join(f"{counts[level]} {level}{'s' if counts[level] > 1 else ''}" for level in levels)
    if counts["error"]:
        return said
    return f"fine ({said})" if said else "fine"


def _not_believed(loaded: Loaded[Athlete]) -> list[Finding]:
    from planner.estimate.estimate_gap import estimate_gap
    from planner.jobs.placing import locator, placed

    try:
        benchmarks = load_benchmarks(locate_benchmarks(loaded.path).path).require()
        dropped = estimate_gap(loaded.require(), benchmarks, locate=locator(loaded)).dropped
    except UserError as error:  # what keeps the gap from being told is for gap and plan to say
        dropped = tuple(finding for finding in error.findings if finding.level == "warning")
    return placed(dropped, loaded)
