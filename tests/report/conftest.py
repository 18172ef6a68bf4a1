import pytest

from tests.estimate.people import shipped_benchmarks


@pytest.fixture(scope="session")
def benchmarks():
    return shipped_benchmarks()
