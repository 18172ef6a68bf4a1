"""The one way from an athlete's file to the four models a block is made from, with every finding on its line."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple, cast

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import Benchmarks
from planner.domain.block_before import BlockBefore
from planner.domain.findings import Finding, UserError, has_errors
from planner.domain.movement_library import Library
from planner.domain.template import Template
from planner.domain.terms import Quality
from planner.estimate.estimate_gap import GapResult
from planner.files.document import Loaded
from planner.files.load import load_benchmarks, load_file, load_library, then
from planner.files.locate import (
    TEMPLATES,
    Located,
    locate_benchmarks,
    locate_library,
    locate_template,
    locate_templates,
    packaged,
)
from planner.files.references import athlete_references, benchmark_references
from planner.files.render import in_order
from planner.files.sense.athlete_sense import athlete_sense
from planner.jobs.placing import locator, placed
from planner.problem.build import high_tier_gate, usual_week_sets
from planner.problem.by_hand import ByHand
from planner.problem.from_files import Inputs, estimate_and_problem, estimate_from
from planner.problem.high_tier import ANCHOR, closed_words
from planner.problem.model import Problem
from planner.problem.revised import Since
from planner.rules.own_limits import load_template

USUAL_TEMPLATE = "eight-week"


@dataclass(frozen=True)
class Wanted:
    """What the command line names; None leaves the choice to the athlete's file and its folder."""

    athlete: str
    template: str | None = None
    library: str | None = None
    templates: str | None = None


class FoundFiles(NamedTuple):
    """Where each of the four files is. The library is a folder."""

    athlete: Located
    library: Located
    template: Located
    benchmarks: Located


@dataclass(frozen=True)
class Sources:
    """The four files as loaded, where each was found, and what they warn of."""

    athlete: Loaded[Athlete]
    library: Loaded[Library]
    template: Loaded[Template]
    benchmarks: Loaded[Benchmarks]
    at: FoundFiles

    @property
    def inputs(self) -> Inputs:
        """The models, the library in the athlete's units. Raises UserError as ``require`` does."""
        self.require()
        athlete = self.athlete.require()
        library = self.library.require().read_by(athlete.print_as.length, athlete.print_as.mass)
        return Inputs(athlete, library, self.template.require(), self.benchmarks.require())

    def require(self) -> None:
        """Raises UserError with the findings of all four files where any has an error."""
        if has_errors(self.findings):
            raise UserError(self.findings)

    def estimate(self) -> GapResult:
        """The force gap of the athlete. Raises UserError with the findings on the lines of the athlete's file."""
        inputs = self.inputs
        with self._on_its_line():
            return estimate_from(inputs, locator(self.athlete))

    def estimate_and_problem(
        self,
        start: datetime.date | None = None,
        since: Since | None = None,
        by_hand: ByHand | None = None,
        before: BlockBefore | None = None,
    ) -> tuple[GapResult, Problem]:
        """The estimate and what is to be solved or checked. Raises UserError as ``estimate`` does."""
        inputs = self.inputs
        with self._on_its_line():
            return estimate_and_problem(inputs, start, locator(self.athlete), since, by_hand, before)

    def usual_sets(self) -> Mapping[Quality, float] | None:
        """The template's own week before the emphasis; None where the template has none for this athlete."""
        try:
            return usual_week_sets(self.inputs.athlete, self.inputs.template)
        except UserError:
            return None

    def closed_jumps(self, estimate: GapResult) -> str | None:
        """What the template's gate closes to this athlete and what opens it; None where nothing is, or nobody knows."""
        athlete, template = self.inputs.athlete, self.inputs.template
        try:
            return closed_words(high_tier_gate(athlete, template, estimate.one_rm_kg.get(ANCHOR)), athlete)
        except UserError:
            return None

    @contextmanager
    def _on_its_line(self) -> Iterator[None]:
        try:
            yield
        except UserError as error:
            raise UserError(placed(error.findings, self.athlete)) from error

    @property
    def findings(self) -> list[Finding]:
        found = (self.athlete, self.library, self.template, self.benchmarks)
        return in_order(finding for loaded in found for finding in loaded.findings)

    def choices(self) -> list[str]:
        """Which library, template and benchmarks are used and why, a line each."""
        named = self.at._asdict()
        return [f"{what + ':':<12}{at.display} ({at.how})" for what, at in named.items() if what != "athlete"]


def read_sources(wanted: Wanted, *, rule_ids: Iterable[str] | None = None) -> Sources:
    """Read athlete, library, template and benchmarks. ``rule_ids``: the rules that ``allow`` may name, if checked.

    Raises UserError for a folder or template that is not there; findings inside files stay with the files.
    """
    path = wanted.athlete
    library_at = locate_library(wanted.library, path)
    benchmarks_at = locate_benchmarks(near=path, templates=wanted.templates)
    library = load_library(library_at.path, library_at.display)
    athlete = _read_athlete(wanted, library.value, rule_ids)
    if athlete.value is None:  # which template is wanted is not known; the library's findings are told all the same
        raise UserError(in_order([*athlete.findings, *library.findings]))
    athlete_at = Located(Path(path), path, "as asked for")
    at = FoundFiles(athlete_at, library_at, _template(wanted, athlete.value), benchmarks_at)
    return sources_with(athlete, library, at)


def sources_with(athlete: Loaded[Athlete], library: Loaded[Library], at: FoundFiles) -> Sources:
    """The athlete and the library as they are read, with the template and the benchmarks read here."""
    benchmarks = load_benchmarks(at.benchmarks.path, at.benchmarks.display)
    if library.value is not None:
        known = library.value
        benchmarks = then(benchmarks, lambda one: benchmark_references(one, known))
    return Sources(athlete, library, load_template(at.template.path, at.template.display), benchmarks, at)


def _read_athlete(wanted: Wanted, library: Library | None, rule_ids: Iterable[str] | None) -> Loaded[Athlete]:
    """Shape, references, sense. A template asked for by option makes the file's own line one that is not read."""
    loaded = cast("Loaded[Athlete]", load_file(wanted.athlete, kinds=("athlete/1",)))
    names = None if wanted.template is not None else _template_names(wanted)
    if library is not None:
        loaded = then(loaded, lambda one: athlete_references(one, library, template_names=names, rule_ids=rule_ids))
    return then(loaded, athlete_sense)


def _template(wanted: Wanted, athlete: Athlete) -> Located:
    """By option, else by the athlete's file (a path there is relative to that file), else the usual one."""
    name = wanted.template
    if name is None and athlete.template is not None:
        name = athlete.template
        if name.endswith((".yaml", ".yml")):
            name = str(Path(wanted.athlete).parent / name)
    return locate_template(name or USUAL_TEMPLATE, wanted.athlete, wanted.templates)


def _template_names(wanted: Wanted) -> list[str]:
    folders = {locate_templates(wanted.athlete, wanted.templates).path, packaged(TEMPLATES)}
    return sorted({path.stem for folder in folders for path in (folder / "blocks").glob("*.yaml")})
