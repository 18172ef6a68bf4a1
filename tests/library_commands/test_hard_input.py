"""Files that no coach writes: each ends in a finding, soon, and none takes the library down with a traceback."""

from __future__ import annotations

import os
import time
from pathlib import Path

import pytest

HEAD = "file: movements/1\nfamily: pogos\nmovements:\n"
ENTRY = (Path(__file__).parents[2] / "exercise_library/pogos.yaml").read_text("utf-8")
SOON_s = 5.0  # of computing, the other files included; typical is under one

HARD: dict[str, tuple[bytes, str]] = {
    "an alias": ((HEAD + "- &a {id: one}\n- *a\n").encode(), "anchor"),
    "an alias alone": ((HEAD + "- *a\n").encode(), "alias"),
    "a star that was meant as text": (ENTRY.replace("level: novice", "level: *novice", 1).encode(), "alias"),
    "a recursive alias": ((HEAD + "- &a [*a]\n").encode(), "anchor"),
    "an alias bomb": (
        ("a: &a [x]\n" + "".join(f"{chr(98 + i)}: &{chr(98 + i)} [*{chr(97 + i)}]\n" for i in range(20))).encode(),
        "anchor",
    ),
    "a merge key": (ENTRY.replace("    kind: jump", "    <<: {kind: jump}", 1).encode(), "merge-key"),
    "a tag": (ENTRY.replace("level: novice", "level: !!str novice", 1).encode(), "tag"),
    "a tag of a program": (b"file: !!python/object/apply:os.system [echo]\n", "tag"),
    "a directive": (b"%YAML 1.1\n---\n" + ENTRY.encode(), "directive"),
    "deep blocks": ("".join(f"{' ' * depth}a:\n" for depth in range(400)).encode(), "too-deep"),
    "deep brackets": (("file: " + "[" * 100_000).encode(), "too-deep"),
    "too large": ((HEAD + "# x\n" * 300_000).encode(), "too-large"),
    "a control character": (ENTRY.replace("novice", "nov\x07ice", 1).encode(), "control-character"),
    "a hidden direction mark": (ENTRY.replace("novice", "novice\u202e", 1).encode(), "control-character"),
    "not a number": (
        ENTRY.replace("effort_percent: ", "effort_percent: .nan #", 1)
        .replace("tier: low", "tier: low, effort_percent: .nan", 1)
        .encode(),
        "not-finite",
    ),
    "infinity": (ENTRY.replace("tier: low", "tier: low, effort_percent: .inf", 1).encode(), "not-finite"),
    "an infinite power": (ENTRY.replace("tier: low", "tier: low, effort_percent: 1e999", 1).encode(), "huge-number"),
    "a huge whole number": (
        ENTRY.replace("tier: low", f"tier: low, effort_percent: {'9' * 400}", 1).encode(),
        "huge-number",
    ),
    "a number in another base": (
        ENTRY.replace("tier: low", "tier: low, effort_percent: 0x1F", 1).encode(),
        "odd-number",
    ),
    "two documents": ((ENTRY + "---\n" + ENTRY).encode(), "many-documents"),
    "sixteen-bit text": (ENTRY.encode("utf-16"), "not-utf8"),
    "sixteen-bit text without a mark": (ENTRY.encode("utf-16-le"), "control-character"),
    "old western text": (ENTRY.replace("novice", "novicé", 1).encode("latin-1"), "not-utf8"),
    "zero bytes": (bytes(5000), "control-character"),
    "nothing": (b"", "empty-file"),
    "a picture": (b"\x89PNG\r\n\x1a\n" + bytes(range(256)) * 40, "not-text"),
    "a list on top": (b"- a\n- b\n", "no-file-kind"),
    "one word": (b"hello", "no-file-kind"),
    "a number as a field": (ENTRY.replace("    level: ", "    12: ", 1).encode(), "key-not-text"),
    "a list as a field": (ENTRY.replace("    level: ", "    ? [a]\n    : ", 1).encode(), "key-not-text"),
    "tabs": (ENTRY.replace("    level", "\tlevel", 1).encode(), "tab"),
    "a hundred thousand entries": ((HEAD + "- {}\n" * 100_000).encode(), "too-large"),
    "a hundred thousand values": (
        ("file: block/1\n" + "".join(f"a{n}: []\n" for n in range(60_000))).encode(),
        "too-large",
    ),
    "thousands of errors": ((HEAD + "- {}\n" * 4_000).encode(), "missing-field"),
}


@pytest.mark.parametrize(("raw", "code"), HARD.values(), ids=HARD)
def test_each_is_a_finding_on_its_file_and_soon(run, coach, raw: bytes, code: str) -> None:
    (coach / "exercise_library/pogos.yaml").write_bytes(raw)
    start = time.process_time()  # not the clock: what else the machine does is no matter
    outcome = run("check", "exercise_library", "--json")
    took_s = time.process_time() - start
    assert outcome.code == 1
    assert code in {found["code"] for found in outcome.json["findings"] if found["path"].endswith("pogos.yaml")}
    assert took_s < SOON_s


@pytest.mark.parametrize(
    "raw", [b"\xef\xbb\xbf" + ENTRY.encode(), ENTRY.replace("\n", "\r\n").encode()], ids=["BOM", "CRLF"]
)
def test_what_editors_of_other_systems_write_is_fine(run, coach, raw: bytes) -> None:
    (coach / "exercise_library/pogos.yaml").write_bytes(raw)
    assert run("check", "exercise_library").code == 0


def test_a_folder_full_of_other_things(run, tmp_path: Path) -> None:
    for number in range(50):
        (tmp_path / f"photo{number}.jpg").write_bytes(os.urandom(100))
    outcome = run("check", tmp_path, "--json")
    assert outcome.code == 1 and outcome.codes == ["nothing-to-check"]
    for number in range(20):
        (tmp_path / f"noise{number}.yaml").write_bytes(bytes([number + 128]) * 300)
    found = run("check", tmp_path, "--json")
    assert found.code == 1 and len(found.json["findings"]) == 20
    listed = run("library", "list", "--library", tmp_path)
    assert listed.code == 1 and "Traceback" not in listed.err


def test_names_and_things_that_are_no_ordinary_file(run, tmp_path: Path) -> None:
    """A name that is no UTF-8, a pipe, a folder and links that are called .yaml, a file of a gigabyte."""
    folder = tmp_path / "library"
    (folder / "folder.yaml").mkdir(parents=True)
    os.mkfifo(folder / "pipe.yaml")
    (folder / "nowhere.yaml").symlink_to("none.yaml")
    (folder / "circle.yaml").symlink_to("circle.yaml")
    Path(os.fsdecode(os.fsencode(folder) + b"/caf\xe9.yaml")).write_text("file: movements/1\nfamily: x\n", "utf-8")
    with (folder / "gigabyte.yaml").open("wb") as stream:
        stream.truncate(2**30)
    outcome = run("check", folder, "--json")
    assert outcome.code == 1
    assert {found["code"] for found in outcome.json["findings"]} == {"missing-field", "too-large"}
    assert "caf" in run("check", folder).out


def test_findings_for_a_pull_request(run, coach) -> None:
    path = coach / "exercise_library/pogos.yaml"
    path.write_text(ENTRY.replace("level: novice", "level: 50%,novis", 1), "utf-8")
    outcome = run("check", "exercise_library", "--format", "github")
    line = ENTRY[: ENTRY.index("level: novice")].count("\n") + 1
    assert outcome.code == 1
    assert outcome.out.startswith(
        f"::error file=exercise_library/pogos.yaml,line={line},col=12,title=not-a-choice::level: '50%25,novis'"
    )
    assert run("check", "exercise_library", "--format", "json").json["findings"]
    assert run("check", "exercise_library", "--format", "github", "--json").code == 2
