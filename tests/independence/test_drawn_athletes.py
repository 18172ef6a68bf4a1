"""Drawn athletes: every block passes the independent audit; every refusal names a true and minimal conflict."""

from __future__ import annotations

import hashlib
from pathlib import Path

import pytest

from tests.independence.drawn import ROOT
from tests.independence.many import as_text, run, table
from tests.independence.outcomes import KINDS, outcome

FIXED_SAMPLE = (301, 303, 304, 313, 319, 321, 327, 334, 342, 345)  # none takes longer than a few seconds
FULL_COUNT = 500
LEAST_TIGHT = 10  # blocks in which each rule with rows is tight
LEAST_REFUSED, MOST_REFUSED = 0.1, 0.5
SOURCES = ("planner", "exercise_library", "templates", "tests/independence")


@pytest.mark.parametrize("seed", FIXED_SAMPLE)
def test_a_drawn_athlete_gets_a_clean_block_or_a_true_refusal(seed: int) -> None:
    found = outcome(seed)
    assert found.faults == []
    assert found.kind in KINDS


@pytest.mark.long
def test_five_hundred_drawn_athletes_get_clean_blocks_or_true_refusals(pytestconfig: pytest.Config) -> None:
    """Kept seed by seed under the sources' digest, so that a run that was cut goes on."""
    folder = pytestconfig.cache.mkdir("drawn-athletes")  # type: ignore[union-attr]
    found = table(run(range(FULL_COUNT), Path(folder) / f"{_digest()}.jsonl"))
    print(as_text(found))
    assert found.faults == []
    assert set(found.kinds) <= set(KINDS)
    assert LEAST_REFUSED <= found.refused_share <= MOST_REFUSED
    assert found.loose(LEAST_TIGHT) == []
    assert found.never_in_conflict() == []


def _digest() -> str:
    """Of all that a drawn outcome depends on."""
    files = [path for source in SOURCES for kind in ("*.py", "*.yaml") for path in (ROOT / source).rglob(kind)]
    text = b"".join(path.read_bytes() for path in sorted(files))
    return hashlib.sha256(text).hexdigest()[:16]
