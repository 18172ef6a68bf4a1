"""What all processes of a run of the tests share."""

from __future__ import annotations

import os
from collections.abc import Iterator

import pytest
from hypothesis import settings

from tests import made_once

# The same draws in each run, and no time that a busy machine could miss.
settings.register_profile("repeatable", derandomize=True, deadline=None)
settings.load_profile("repeatable")


@pytest.fixture(scope="session", autouse=True)
def shared_folder(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """With several workers (pytest-xdist), each has its own temporary folder below one of the run."""
    if "PYTEST_XDIST_WORKER" in os.environ:
        made_once.FOLDER[:] = [tmp_path_factory.getbasetemp().parent]
    yield
    made_once.FOLDER.clear()
