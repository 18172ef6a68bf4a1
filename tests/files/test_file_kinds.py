"""The first line says what a file is; a wrong one is a finding before anything else."""

from __future__ import annotations

import pytest

from files.snippets import ATHLETE, changed
from planner.files.kinds import MODELS, model_of
from planner.files.load import load_bytes, load_file

CASES = [
    ("misspelt kind", "file: athlet/1", "unknown-file-kind", 1, "did you mean 'athlete/1'?"),
    ("kind in the plural", "file: athletes/1", "unknown-file-kind", 1, "athlete/1"),
    ("unlike any", "file: zzz/1", "unknown-file-kind", 1, "use one of: athlete/1"),
    ("later version", "file: athlete/2", "unknown-file-version", 1, "write athlete/1"),
    ("no version", "file: athlete", "unknown-file-version", 1, "write athlete/1"),
    ("a number", "file: 1", "unknown-file-kind", 1, ""),
    ("a list", "file: [athlete/1]", "unknown-file-kind", 1, ""),
    ("nothing", "file:", "unknown-file-kind", 1, ""),
    ("not first", "note: mine\nfile: athlete/1", "file-kind-not-first", 2, "move this line to the top"),
    ("missing", "# no kind here", "no-file-kind", 2, "as the first line"),
]


@pytest.mark.parametrize(("line", "code", "at", "words"), [case[1:] for case in CASES], ids=[case[0] for case in CASES])
def test_wrong_first_line(line: str, code: str, at: int, words: str) -> None:
    loaded = load_bytes(changed("file: athlete/1", line)[0].encode(), "nora.yaml")
    assert loaded.value is None
    assert [(finding.code, finding.line) for finding in loaded.findings] == [(code, at)]
    assert words in loaded.findings[0].hint


@pytest.mark.parametrize("text", ["just words", "- a\n- list", "12", "{}"])
def test_a_file_without_fields(text: str) -> None:
    loaded = load_bytes(text.encode(), "nora.yaml")
    assert [(finding.code, finding.line) for finding in loaded.findings] == [("no-file-kind", 1)]


def test_another_kind_than_wanted() -> None:
    loaded = load_bytes(ATHLETE.encode(), "nora.yaml", ("template/1",))
    assert [(finding.code, finding.line) for finding in loaded.findings] == [("wrong-file-kind", 1)]


def test_every_kind_has_a_model_that_states_it() -> None:
    for kind in MODELS:
        assert kind in str(model_of(kind).model_fields["file"].annotation)


def test_a_missing_file_a_folder_and_a_name_no_system_takes(tmp_path: object) -> None:
    for path in (f"{tmp_path}/none.yaml", str(tmp_path), "a\0b"):
        (finding,) = load_file(path, "shown.yaml").findings
        assert (finding.path, finding.line, finding.code) == ("shown.yaml", 0, "cannot-read")
