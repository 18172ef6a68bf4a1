"""A folder of library files becomes one library; names that point nowhere are told on their line."""

from __future__ import annotations

import shutil
import time
from pathlib import Path

import pytest

from files.snippets import ATHLETE, changed
from planner.domain.prerequisite import Requirement, RequirementError, parse_requirement
from planner.files.load import load_athlete, load_library
from planner.files.references import athlete_references

SHIPPED = Path(__file__).parents[2] / "exercise_library"

EQUIPMENT = """\
file: equipment/1
equipment:
  - {id: rack, name: Rack and bar}
  - {id: box, name: Box}
"""
SQUATS = """\
file: movements/1
family: squats
movements:
  - id: back-squat
    name: Back squat
    kind: lift
    part: main-lift
    patterns: [squat]
    qualities: {maximal-strength: 3}
    stress: {patellar-knee: 2}
    legs: both
    equipment: [rack]
    level: intermediate
    dose: {scheme: main-lift, load: percent, of: back-squat, set_time: 40 s, rest: 180 s}
    cues: [Sit between the heels]
    source: common practice, no source
"""
HOPS = """\
file: movements/1
family: hops
movements:
  - id: ankle-hop
    name: Ankle hop
    kind: jump
    part: jump
    qualities: {speed-exposure: 1}
    stress: {achilles-ankle: 1}
    legs: both
    level: novice
    harder: knee-hop
    jump: {direction: vertical, approach: standing, tier: low}
    dose: {scheme: low-tier-jump, set_time: 15 s, rest: 60 s}
    cues: [Short and tall]
    source: common practice, no source
  - id: knee-hop
    name: Knee hop
    kind: jump
    part: jump
    qualities: {speed-exposure: 2}
    stress: {achilles-ankle: 2}
    legs: both
    equipment: [box]
    level: intermediate
    requires: [back-squat >= 1.2 body mass]
    easier: ankle-hop
    jump: {direction: vertical, approach: standing, tier: medium}
    dose: {scheme: medium-tier-jump, set_time: 15 s, rest: 90 s}
    cues: [Knees to the chest]
    source: common practice, no source
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for name, text in (("equipment.yaml", EQUIPMENT), ("squats.yaml", SQUATS), ("hops.yaml", HOPS)):
        (tmp_path / name).write_text(text, "utf-8")
    return tmp_path


def _places(folder: Path) -> list[tuple[str, str, int]]:
    return [(f.code, f.path, f.line) for f in load_library(folder, "exercise_library").findings]


def test_a_library_of_three_files(folder: Path) -> None:
    loaded = load_library(folder, "exercise_library")
    library = loaded.require()
    assert list(library.movements) == ["ankle-hop", "back-squat", "knee-hop"]
    assert library.families == {"ankle-hop": "hops", "back-squat": "squats", "knee-hop": "hops"}
    assert library.equipment == {"box": "Box", "rack": "Rack and bar"}
    assert library.places["knee-hop"] == "exercise_library/hops.yaml:17"
    place = loaded.place(("knee-hop", "requires", 0))
    assert (place.line, place.column) == (26, 16)
    assert "back-squat" in library and library.get("none") is None and len(library) == 3


JUMP = "jump: {direction: vertical, approach: standing, tier: low}"
SPRINT = "sprint: {sort: flying, distance: 20 m}"
CASES = [
    ("unknown neighbour", "harder: knee-hop", "harder: knee-hopp", "unknown-movement"),
    ("unknown reference lift", "of: back-squat", "of: front-squat", "unknown-movement"),
    ("unknown required lift", "back-squat >= 1.2", "bak-squat >= 1.2", "unknown-movement"),
    ("requirement in other words", "back-squat >= 1.2 body mass", "squat your weight", "requirement"),
    ("requirement out of reach", "back-squat >= 1.2 body mass", "back-squat >= 12 body mass", "requirement"),
    ("unknown equipment", "equipment: [box]", "equipment: [boxes]", "unknown-equipment"),
    ("percent of nothing", "load: percent, of: back-squat", "load: percent", "percent-of-nothing"),
    ("jump field on a lift", "    cues: [Sit", f"    {JUMP}\n    cues: [Sit", "jump-of-no-jump"),
    ("sprint field on a lift", "    cues: [Sit", f"    {SPRINT}\n    cues: [Sit", "sprint-of-no-sprint"),
    ("rebound from no drop", "tier: medium}", "tier: medium, rebound: true}", "rebound-without-drop"),
]


@pytest.mark.parametrize(("old", "new", "code"), [case[1:] for case in CASES], ids=[case[0] for case in CASES])
def test_library_finding_on_its_line(folder: Path, old: str, new: str, code: str) -> None:
    name, text = ("squats.yaml", SQUATS) if old in SQUATS else ("hops.yaml", HOPS)
    text, line = changed(old, new, text)
    (folder / name).write_text(text, "utf-8")
    assert _places(folder) == [(code, f"exercise_library/{name}", line)]
    assert load_library(folder).value is None


def test_a_jump_without_its_field(folder: Path) -> None:
    text, _ = changed(f"    {JUMP}\n", "", HOPS)
    (folder / "hops.yaml").write_text(text, "utf-8")
    assert _places(folder) == [
        ("jump-without-jump", "exercise_library/hops.yaml", text[: text.index("kind")].count("\n") + 1)
    ]


def test_harder_in_a_circle_is_told_once(folder: Path) -> None:
    text, _ = changed("    easier: ankle-hop", "    easier: ankle-hop\n    harder: ankle-hop", HOPS)
    (folder / "hops.yaml").write_text(text, "utf-8")
    found = [finding for finding in load_library(folder).findings if finding.level == "error"]
    assert [finding.code for finding in found] == ["neighbour-loop"]
    assert "ankle-hop -> knee-hop -> ankle-hop" in found[0].message


def test_an_id_in_two_files_names_both_places(folder: Path) -> None:
    (folder / "more.yaml").write_text(changed("family: squats", "family: more", SQUATS)[0], "utf-8")
    (finding,) = load_library(folder, "exercise_library").findings
    assert (finding.code, finding.path, finding.line) == ("duplicate-id", "exercise_library/squats.yaml", 4)
    assert finding.other == "exercise_library/more.yaml:4"


def test_findings_of_all_files_come_at_once(folder: Path) -> None:
    (folder / "squats.yaml").write_text(changed("kind: lift", "kind: lft", SQUATS)[0], "utf-8")
    (folder / "equipment.yaml").write_text("\tx", "utf-8")
    assert [code for code, _, _ in _places(folder)] == ["tab", "not-a-choice"]


def test_names_are_checked_beside_a_broken_entry(folder: Path) -> None:
    """The entry above is broken and is known all the same; the one below it is read, and so is the other file."""
    text, typo = changed("level: novice", "levle: novice", HOPS)
    text, dangling = changed("equipment: [box]", "equipment: [bax]", text)
    (folder / "hops.yaml").write_text(text, "utf-8")
    squats, away = changed("    cues: [Sit", "    harder: back-squad\n    cues: [Sit", SQUATS)
    (folder / "squats.yaml").write_text(squats, "utf-8")
    assert _places(folder) == [
        ("unknown-field", "exercise_library/hops.yaml", typo),
        ("unknown-equipment", "exercise_library/hops.yaml", dangling),
        ("unknown-movement", "exercise_library/squats.yaml", away),
    ]


def test_names_in_a_file_that_does_not_parse_count_as_known(folder: Path) -> None:
    (folder / "hops.yaml").write_text(HOPS.replace("tier: low}", "tier: low", 1), "utf-8")
    squats = changed("    cues: [Sit", "    harder: knee-hop\n    cues: [Sit", SQUATS)[0]
    (folder / "squats.yaml").write_text(squats, "utf-8")
    assert [code for code, _, _ in _places(folder)] == ["yaml-syntax"]
    (folder / "hops.yaml").write_bytes(HOPS.encode("utf-16"))  # nothing can be known of it
    assert [code for code, _, _ in _places(folder)] == ["not-utf8"]


def test_an_id_stands_twice_also_where_one_file_is_broken(folder: Path) -> None:
    text = changed("rest: 180 s", "rest: 180", changed("family: squats", "family: more", SQUATS)[0])[0]
    text += SQUATS.partition("movements:\n")[2]
    (folder / "more.yaml").write_text(text, "utf-8")
    assert [code for code, _, _ in _places(folder)] == ["quantity", "duplicate-id"]


def test_digest_counts_names_and_bytes_and_nothing_else(folder: Path, tmp_path_factory: pytest.TempPathFactory) -> None:
    digest = load_library(folder).sha256
    copy = tmp_path_factory.mktemp("copy")
    for name in ("squats.yaml", "hops.yaml", "equipment.yaml"):  # written in another order
        shutil.copy(folder / name, copy / name)
    (copy / "notes.txt").write_text("not a library file")
    assert load_library(copy).sha256 == digest
    (copy / "hops.yaml").rename(copy / "jumps.yaml")
    assert load_library(copy).sha256 != digest
    assert load_library(copy).require().movements == load_library(folder).require().movements
    (folder / "hops.yaml").write_text(HOPS + "# a remark\n", "utf-8")
    assert load_library(folder).sha256 != digest


def test_the_order_of_the_file_system_changes_nothing(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (folder / "more.yaml").write_text(changed("family: squats", "family: more", SQUATS)[0], "utf-8")
    usual, listed = load_library(folder), sorted(folder.rglob("*"))
    for order in (listed, listed[::-1]):
        monkeypatch.setattr(Path, "rglob", lambda *_, order=order: iter(order))
        other = load_library(folder)
        assert (other.sha256, other.findings) == (usual.sha256, usual.findings)


def test_a_folder_without_files_and_a_file_of_another_kind(folder: Path, tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    assert [code for code, _, _ in _places(tmp_path / "empty")] == ["no-library"]
    (folder / "nora.yaml").write_text(ATHLETE, "utf-8")
    assert [code for code, _, _ in _places(folder)] == ["wrong-file-kind"]


ATHLETE_CASES = [
    ("unknown lift", "movement: back-squat", "movement: bak-squat", "unknown-movement", "did you mean 'back-squat'?"),
    ("unknown ban", "landing: h", "bans: [knee-hopp]\nlanding: h", "unknown-movement", "did you mean 'knee-hop'?"),
    ("unknown pin", "landing: h", "pins: [{movement: nordic}]\nlanding: h", "unknown-movement", "use one of"),
    (
        "unknown movement that is allowed",
        "landing: h",
        "allow: [{movement: knee-hopp, reason: seen, date: 2025-01-01}]\nlanding: h",
        "unknown-movement",
        "did you mean 'knee-hop'?",
    ),
    ("lift by its name", "movement: back-squat", "movement: Back Squat", "unknown-movement", "write back-squat"),
    ("unknown equipment", "landing: h", "equipment: {items: [racks]}\nlanding: h", "unknown-equipment", "mean 'rack'?"),
    ("side of a two-leg lift", "load: 100 kg", "side: left, load: 100 kg", "side-not-wanted", "delete side"),
]


@pytest.mark.parametrize(
    ("old", "new", "code", "hint"), [c[1:] for c in ATHLETE_CASES], ids=[c[0] for c in ATHLETE_CASES]
)
def test_athlete_against_library(folder: Path, tmp_path: Path, old: str, new: str, code: str, hint: str) -> None:
    text, line = changed(old, new)
    (tmp_path / "nora.txt").write_text(text, "utf-8")
    library = load_library(folder).require()
    loaded = load_athlete(tmp_path / "nora.txt", "nora.yaml", library=library)
    assert loaded.value is None
    assert [(finding.code, finding.line) for finding in loaded.findings] == [(code, line)]
    assert hint in loaded.findings[0].hint


def test_references_come_before_sense(folder: Path, tmp_path: Path) -> None:
    text, _ = changed("movement: back-squat", "movement: back-squats", changed("touch: 3.00 m", "touch: 2.00 m")[0])
    (tmp_path / "nora.txt").write_text(text, "utf-8")
    loaded = load_athlete(tmp_path / "nora.txt", library=load_library(folder).require())
    assert [finding.code for finding in loaded.findings] == ["unknown-movement"]


def test_template_and_rule_names(folder: Path, tmp_path: Path) -> None:
    allow = "allow: [{rule: hard-day, reason: a reason, date: 2025-01-01}]\ntemplate: eight-weeks\nlanding: h"
    (tmp_path / "nora.txt").write_text(changed("landing: h", allow)[0], "utf-8")
    library = load_library(folder).require()
    loaded = load_athlete(tmp_path / "nora.txt", library=library)
    assert loaded.value is not None
    found = athlete_references(loaded, library, template_names=["eight-week"], rule_ids=["hard-days"])
    assert sorted(finding.code for finding in found) == ["unknown-rule", "unknown-template"]


@pytest.mark.parametrize(
    "text", ["back-squat >= 1.5 body mass", " back-squat ≥ 1.5  body masses ", "back-squat>=1.50 body-mass"]
)
def test_requirement(text: str) -> None:
    assert parse_requirement(text) == Requirement("back-squat", 1.5)
    assert parse_requirement(str(parse_requirement(text))) == Requirement("back-squat", 1.5)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "back-squat",
        "back-squat > 1.5 body mass",
        "back-squat >= 150 kg",
        "Back Squat >= 1 body mass",
        "a >= 0 body mass",
    ],
)
def test_not_a_requirement(text: str) -> None:
    with pytest.raises(RequirementError):
        parse_requirement(text)


def test_the_shipped_library_has_no_findings_and_loads_in_a_moment() -> None:
    began = time.process_time()  # of the process: what else the machine does is no matter
    loaded = load_library(SHIPPED, "a name under which it was not read yet")
    took = time.process_time() - began
    assert loaded.findings == ()
    assert (
        took / max(len(loaded.require()), 1) < 0.05
    )  # seconds a movement: five times what is usual, against surprises


def test_a_file_of_movements_under_a_name_that_is_not_read_is_told(folder: Path) -> None:
    before = load_library(folder).sha256
    (folder / "mine.txt").write_text(SQUATS, "utf-8")
    (folder / "notes.txt").write_text("Ask about the sled.\n", "utf-8")
    loaded = load_library(folder)
    (found,) = loaded.findings
    assert (found.code, found.level, found.path.endswith("mine.txt")) == ("not-read", "note", True)
    assert "rename it to mine.yaml" in found.hint and loaded.value is not None and loaded.sha256 == before


def test_what_is_said_of_a_folder_without_a_file_has_no_line(tmp_path: Path) -> None:
    loaded = load_library(tmp_path)
    said = loaded.finding(("back-squat",), "code", "words")
    assert (said.path, said.line, said.column) == (loaded.path, 0, 0)
    assert (loaded.place(("back-squat",)).line, loaded.place(("back-squat",)).column) == (0, 0)
