"""Benchmarks of an older folder: what they lack is read from the packaged file, told, and nothing else changes."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from ruamel.yaml import YAML

from planner.domain.benchmarks import Benchmarks
from planner.files.document import Loaded
from planner.files.dump import plain_to_yaml
from planner.files.load import load_benchmarks

PATH = Path(__file__).parents[2] / "templates/benchmarks/standard.yaml"


@cache
def shipped() -> Benchmarks:
    return load_benchmarks(PATH).require()


def without(tmp_path: Path, *lines: tuple[str, ...], **changes: float) -> Loaded[Benchmarks]:
    """The shipped file without these lines, each by its path; ``changes``: figures of the platform section."""
    data = YAML(typ="safe", pure=True).load(PATH.read_text("utf-8"))
    data["platform"] |= changes
    for *above, last in lines:
        holder = data
        for step in above:
            holder = holder[step]
        del holder[last]
    (tmp_path / "old.yaml").write_text(plain_to_yaml(data), "utf-8")
    return load_benchmarks(tmp_path / "old.yaml", "old.yaml")


def test_a_kind_of_test_is_taken_whole_with_a_note_on_its_table(tmp_path: Path) -> None:
    loaded = without(tmp_path, ("test_kinds", "lift"), ("test_kinds", "touch", "length_error", "day_error"))
    (found,) = loaded.findings
    assert (found.code, found.level) == ("packaged-test-kind", "note") and found.source_line == "test_kinds:"
    assert found.message == (
        "the file has no entry for the test kind 'lift'; the entry that comes with the planner is used"
    )
    assert found.hint == "to change it, copy 'lift' from the standard benchmarks of a new folder"
    kinds = loaded.require().test_kinds
    assert kinds["lift"] == shipped().test_kinds["lift"]
    assert kinds["touch"].error.day_error is None  # a kind that is there is the coach's own, with what it leaves out


def test_lines_of_the_platform_are_taken_one_by_one_with_one_note(tmp_path: Path) -> None:
    loaded = without(tmp_path, ("platform", "drift_N_s"), ("platform", "edges", "fit"), onset_multiple=7.0)
    (found,) = loaded.findings
    assert (found.code, found.level) == ("packaged-platform", "note") and found.source_line.startswith("platform:")
    assert found.message == (
        "the file has no lines for drift_N_s, edges.fit under platform; those that come with the planner are used"
    )
    platform = loaded.require().platform
    assert (platform.drift_N_s, platform.edges) == (shipped().platform.drift_N_s, shipped().platform.edges)
    assert platform.onset_multiple == 7.0


def test_what_lacks_both_is_told_both_and_each_section_is_filled_only_where_it_lacks_a_line(tmp_path: Path) -> None:
    both = without(tmp_path, ("test_kinds", "lift"), ("test_kinds", "touch"), ("platform", "weighing"))
    codes = [one.code for one in both.findings]
    assert codes == ["packaged-test-kind", "packaged-test-kind", "packaged-platform"]
    assert both.require() == shipped()
    broken = without(tmp_path, ("test_kinds", "lift"), ("platform", "search", "smooth"))
    assert sorted(one.code for one in broken.findings) == ["missing-field", "packaged-test-kind"]
    assert [one.code for one in without(tmp_path, ("platform",)).findings] == ["missing-field"]
    assert [one.code for one in without(tmp_path, ("test_kinds",)).findings] == ["missing-field"]


def test_lines_that_are_no_longer_read_are_passed_by(tmp_path: Path) -> None:
    lines = PATH.read_text("utf-8").splitlines()
    below = next(number for number, line in enumerate(lines, start=1) if line.startswith("  search:"))
    for line, codes in (("other_stand: 1 s", []), ("other_within: 2 s", []), ("other: 1 s", ["unknown-field"])):
        text = "\n".join([*lines[:below], f"    {line}", *lines[below:]])
        (tmp_path / "old.yaml").write_text(text, "utf-8")
        assert [one.code for one in load_benchmarks(tmp_path / "old.yaml").findings] == codes
