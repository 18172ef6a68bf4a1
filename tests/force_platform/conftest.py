import os
from pathlib import Path

import pytest

from tests.estimate.people import CHECKOUT, shipped_benchmarks


@pytest.fixture(scope="session")
def rule():
    return shipped_benchmarks().platform


@pytest.fixture(scope="session")
def recordings() -> Path:
    """Folder of the two real recordings: named by JUMPBLOCK_RECORDINGS, else shared/recordings beside the checkout."""
    named = os.environ.get("JUMPBLOCK_RECORDINGS")
    places = [Path(named)] if named else [folder / "shared" / "recordings" for folder in CHECKOUT.parents]
    for place in places:
        if (place / "jump1.txt").is_file():
            return place
    pytest.skip("the real recordings are not here; name their folder in JUMPBLOCK_RECORDINGS")
