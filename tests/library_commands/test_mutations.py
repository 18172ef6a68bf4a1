"""Every shipped file broken at one place, many times over: never a traceback, and the break is told on its line.

The full count: python -m pytest -m long tests/library_commands/test_mutations.py -s
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Callable
from pathlib import Path

import pytest

from planner.domain.findings import Finding
from planner.files import load
from planner.files.file_checker import known_templates
from planner.files.kinds import file_kind, model_of
from planner.files.references import benchmark_references, gym_references, squad_references
from planner.files.sense.reach import reach_findings
from planner.rules.own_limits import load_template, own_limits_findings
from tests.library_commands.mutants import Mutant, mutants

ROOT = Path(__file__).parents[2]
LIBRARY = ROOT / "exercise_library"
SHIPPED = sorted([*LIBRARY.glob("*.yaml"), *(ROOT / "templates").rglob("*.yaml")])
SAMPLE = [path for index, path in enumerate(SHIPPED) if index % 4 == 0 or path.parent != LIBRARY]
CI_EACH, LONG_EACH = 1, 16
LEAST_FOUND = 0.99  # of planted errors, on their line
FEWEST_LONG = 5000


@pytest.fixture(scope="module")
def check() -> Callable[[Path, bytes], list[Finding]]:
    """Checks one file with other bytes in it, as the command does."""
    templates = known_templates(LIBRARY)
    patch = pytest.MonkeyPatch()
    known = load.load_library(LIBRARY).require()

    def run(path: Path, raw: bytes) -> list[Finding]:
        if path.parent == LIBRARY:
            loaded = load.load_library(LIBRARY, "library", instead={path.name: raw})
            found = [*loaded.findings, *reach_findings(loaded, templates)]
            return [finding for finding in found if finding.path == f"library/{path.name}"]
        # Other files are read as they are: the limits that a template names, say.
        other = {path: (raw, [])}
        patch.setattr(load, "read_bytes", lambda at, shown: other.get(Path(at)) or _read_bytes(at, shown))
        try:
            if path.parent.name == "athletes":
                return list(load.load_athlete(path, library=known).findings)
            if path.parent.name == "blocks":
                return list(load_template(path).findings)
            if path.parent.name == "limits":
                return list(load.then(load.load_file(path), own_limits_findings).findings)
            if path.parent.name == "benchmarks":
                return list(
                    load.then(load.load_benchmarks(path), lambda one: benchmark_references(one, known)).findings
                )
            if path.parent.name == "gyms":
                return list(load.then(load.load_usual_gyms(path), lambda one: gym_references(one, known)).findings)
            if path.parent.name == "sheets":
                return list(load.load_test_sheet(path).findings)
            if path.name == "demo-squad.yaml":
                return list(load.then(load.load_squad(path), lambda one: squad_references(one, known)).findings)
            return list(load.load_file(path).findings)
        finally:
            patch.setattr(load, "read_bytes", _read_bytes)

    yield run
    patch.undo()


_read_bytes = load.read_bytes


def _mutants(path: Path, each: int) -> list[Mutant]:
    document, findings = load.read_document(path.read_bytes(), path.name, "")
    assert document is not None and not findings
    kind = file_kind(document)[0]
    assert kind is not None and model_of(kind)
    return mutants(document, kind, random.Random(path.name), each)


def _survey(
    check: Callable[[Path, bytes], list[Finding]], paths: list[Path], each: int
) -> tuple[Counter[str], Counter[str], list[str]]:
    planted: Counter[str] = Counter()
    found: Counter[str] = Counter()
    missed: list[str] = []
    for path in paths:
        for mutant in _mutants(path, each):
            findings = check(path, mutant.text.encode("utf-8"))  # must not raise
            assert all(0 <= finding.line <= mutant.text.count("\n") + 2 for finding in findings)
            if not mutant.line:
                continue
            planted[mutant.sort] += 1
            if any(finding.line == mutant.line for finding in findings):
                found[mutant.sort] += 1
            else:
                told = "; ".join(f"{finding.line} [{finding.code}] {finding.message}" for finding in findings[:3])
                missed.append(f"{path.name}:{mutant.line} {mutant.sort} {mutant.what}: {told or 'nothing'}")
    return planted, found, missed


def test_a_sample_of_mutants_is_found(check: Callable[[Path, bytes], list[Finding]]) -> None:
    planted, found, missed = _survey(check, SAMPLE, CI_EACH)
    assert planted.total() > 100
    assert found.total() >= LEAST_FOUND * planted.total(), "\n".join(missed)


@pytest.mark.long
def test_every_shipped_file_broken_in_many_ways(check: Callable[[Path, bytes], list[Finding]]) -> None:
    planted, found, missed = _survey(check, SHIPPED, LONG_EACH)
    count = sum(len(_mutants(path, LONG_EACH)) for path in SHIPPED)
    print(f"\n{count} mutants, no traceback; planted errors on their line: {found.total()} of {planted.total()}")
    print(
        {sort: f"{found[sort]} of {number}" for sort, number in planted.items()},
        *missed,
        sep="\n",
    )
    assert count >= FEWEST_LONG
    for sort, number in planted.items():
        assert found[sort] >= LEAST_FOUND * number, (sort, missed)
