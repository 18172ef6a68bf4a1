"""The shipped library, loaded once as the planner loads it."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.domain.movement_library import Library
from planner.files.document import Loaded
from planner.files.load import load_library

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="session")
def loaded() -> Loaded[Library]:
    return load_library(ROOT / "exercise_library")


@pytest.fixture(scope="session")
def library(loaded: Loaded[Library]) -> Library:
    assert loaded.value is not None, loaded.findings
    return loaded.value
