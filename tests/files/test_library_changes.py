"""A movement changed or added in a library of three small files: the lines that differ, and what is refused."""

from __future__ import annotations

import difflib
from collections.abc import Callable, Iterator
from functools import lru_cache
from pathlib import Path

import pytest

from files.test_library_folder import EQUIPMENT, HOPS, SQUATS
from planner.domain.findings import UserError
from planner.files import load
from planner.files.edit_fields import read_assignments
from planner.files.edit_library import (
    LibraryChange,
    add_family,
    add_movement,
    change_movement,
    families,
    find_movement,
    line_of,
)
from planner.files.locate import Located
from planner.files.new_movement import Wish, new_entry, place

Change = Callable[[Located], LibraryChange]
EDITOR = "# yaml-language-server: $schema=../schemas/library.schema.json\n"


@pytest.fixture(scope="module", autouse=True)
def read_once() -> Iterator[None]:
    patch = pytest.MonkeyPatch()
    patch.setattr(load, "load_bytes", lru_cache(maxsize=512)(load.load_bytes))
    yield
    patch.undo()


@pytest.fixture
def library(tmp_path: Path) -> Located:
    folder = tmp_path / "exercise_library"
    folder.mkdir()
    for name, text in (("equipment.yaml", EQUIPMENT), ("squats.yaml", SQUATS), ("hops.yaml", HOPS)):
        (folder / name).write_text(text, "utf-8")
    return Located(folder, "exercise_library", "as asked for")


def differing(change: LibraryChange) -> list[str]:
    old = "" if change.before is None else change.before.decode()
    lines = difflib.ndiff(old.splitlines(), change.after.decode().splitlines())
    return [line for line in lines if line[0] in "+-"]


def wish(movement: str | None, *words: str, like: str | None = None, name: str | None = None, family: str = "") -> Wish:
    return Wish(movement, like, name, family or None, tuple(read_assignments(words)))


@pytest.mark.parametrize(
    ("words", "lines"),
    [
        (["level=advanced"], ["-     level: novice", "+     level: advanced"]),
        (["cues.1=Tall"], ["-     cues: [Short and tall]", "+     cues: [Tall]"]),
        (["cues.2=Tall"], ["-     cues: [Short and tall]", "+     cues: [Short and tall, Tall]"]),
        (["harder="], ["-     harder: knee-hop"]),
        (["patterns.1=trunk"], ["+     patterns: [trunk]"]),
        (["cautions=Not on a sore shin"], ["+     cautions:", "+       - Not on a sore shin"]),
        (["sprint.distance=20 m"], ["+     sprint: {distance: 20 m}"]),
        (["take_off=one-leg", "runway=9 m"], ["+     runway: 9 m", "+     take_off: one-leg"]),
    ],
)
def test_an_edit_changes_the_lines_of_its_fields(library: Located, words: list[str], lines: list[str]) -> None:
    change = change_movement(library, "ankle-hop", read_assignments(words))
    assert differing(change) == lines
    assert (change.name, change.shown, change.before) == ("hops.yaml", "exercise_library/hops.yaml", HOPS.encode())


def test_a_change_is_shown_as_a_diff_with_the_file_s_name(library: Located) -> None:
    shown = change_movement(library, "back-squat", read_assignments(["level=novice"])).diff().splitlines()
    assert shown[:3] == ["--- exercise_library/squats.yaml", "+++ exercise_library/squats.yaml", "@@ -10,7 +10,7 @@"]
    assert shown[6:8] == ["-    level: intermediate", "+    level: novice"] and len(shown) == 11


def test_only_what_the_change_brings_is_told_and_an_error_keeps_it_from_being_written(library: Located) -> None:
    (library.path / "squats.yaml").write_text(SQUATS.replace("of: back-squat", "of: bak-squat"), "utf-8")
    change = change_movement(library, "knee-hop", read_assignments(["equipment=boxx"]))
    assert [one.code for one in change.new_errors] == ["unknown-equipment"] == [one.code for one in change.new_findings]
    with pytest.raises(UserError):
        change.write()
    assert (library.path / "hops.yaml").read_text("utf-8") == HOPS
    (library.path / "squats.yaml").write_text(SQUATS, "utf-8")
    warned = change_movement(library, "knee-hop", read_assignments(["dose.scheme=none-such"]))
    assert [(one.code, one.level) for one in warned.new_findings] == [("unknown-scheme", "warning")]
    warned.write()
    assert "none-such" in (library.path / "hops.yaml").read_text("utf-8")


LIKE = [
    "+   - id: one-leg-toe-hop",
    "+     name: One-leg toe hop",
    "+     kind: jump",
    "+     part: jump",
    "+     legs: both",
    "+     level: novice",
    "+     qualities: {speed-exposure: 1}",
    "+     stress: {achilles-ankle: 1}",
    "+     jump: {direction: vertical, approach: standing, tier: low}",
    "+     dose: {scheme: low-tier-jump, set_time: 15 s, rest: 60 s}",
    "+     cues:",
    "+       - Short and tall",
    "+     source: Tags as for ankle-hop; common practice, no source",
]


@pytest.mark.parametrize(
    ("words", "without", "more"),
    [
        ([], [], []),
        (["level=advanced"], [5], ["+     level: advanced"]),
        (["harder=knee-hop", "source=own"], [12], ["+     harder: knee-hop", "+     source: own"]),
        (
            ["jump.height=20 cm"],
            [8],
            ["+     jump: {direction: vertical, approach: standing, tier: low, height: 20 cm}"],
        ),
        (["jump="], [8], []),
        (["jump.height="], [], []),
        (["cues.2=Tall"], [], ["+       - Tall"]),
        (["cues.1=Tall"], [11], ["+     cues: [Tall]"]),
        (["cautions.1=Not yet"], [], ["+     cautions:", "+       - Not yet"]),
        (["sprint.distance=9 m"], [], ["+     sprint: {distance: 9 m}"]),
    ],
)
def test_a_movement_like_another_comes_behind_it(
    library: Located, words: list[str], without: list[int], more: list[str]
) -> None:
    change = place(wish("one-leg-toe-hop", *words, like="ankle-hop"), library)
    wanted = [line for number, line in enumerate(LIKE) if number not in without] + more
    if words == ["cues.1=Tall"]:
        wanted.remove("+     cues:")
    assert sorted(differing(change)) == sorted(wanted)
    first = change.after.decode().splitlines()[line_of(change, "one-leg-toe-hop") - 1]
    assert first == "  - id: one-leg-toe-hop" and line_of(change, "none") == 0
    assert line_of(change, "ankle-hop") < line_of(change, "one-leg-toe-hop") < line_of(change, "knee-hop")


def test_a_movement_of_another_family_comes_last_in_that_file(library: Located) -> None:
    change = place(wish("toe-hop", like="ankle-hop", name="Toes", family="squats"), library)
    assert change.name == "squats.yaml" and "+     name: Toes" in differing(change)
    assert line_of(change, "toe-hop") > line_of(change, "back-squat")
    assert change.loaded.require().families["toe-hop"] == "squats"


def test_a_movement_of_a_new_family_is_a_new_file(library: Located) -> None:
    change = place(wish("toe-hop", like="ankle-hop", family="toes"), library)
    assert (change.name, change.before) == ("toes.yaml", None)
    assert differing(change)[:4] == ["+ file: movements/1", "+ family: toes", "+ movements:", "+   - id: toe-hop"]
    change.write()
    assert families(library) == {"hops": "hops.yaml", "squats": "squats.yaml", "toes": "toes.yaml"}
    with pytest.raises(UserError) as refused:
        change.write()
    assert [one.code for one in refused.value.findings] == ["changed-meanwhile"]


def test_a_new_file_has_the_editor_s_line_of_the_others(library: Located) -> None:
    (library.path / "deep").mkdir()
    (library.path / "deep/a.yaml").write_text(EDITOR + "file: movements/1\nfamily: deep\n", "utf-8")
    entry = new_entry(wish("toe-hop", "kind=jump"), None)
    assert add_family(library, "toes", entry).after.startswith(b"file: movements/1\nfamily: toes\nmovements:\n")
    (library.path / "squats.yaml").write_text(EDITOR + SQUATS, "utf-8")
    assert add_family(library, "toes", entry).after.startswith(f"{EDITOR}file: movements/1\n".encode())


@pytest.mark.parametrize("family", ["family: odd # why\n", 'family: "odd"\n', "family: 'odd'\r\n"])
def test_a_family_is_known_by_the_line_that_states_it(library: Located, family: str) -> None:
    (library.path / "odd.yaml").write_text(f"file: movements/1\n{family}movements: []\n", "utf-8", newline="")
    assert families(library)["odd"] == "odd.yaml"


REFUSED: list[tuple[str, Change, str, str]] = [
    (
        "a field that is not there",
        lambda at: change_movement(at, "ankle-hop", read_assignments(["cautions="])),
        "exercise_library/hops.yaml:4 nothing-there",
        "'ankle-hop' has no cautions to take out; jumpblock library show lists it",
    ),
    (
        "an entry that is not there",
        lambda at: change_movement(at, "ankle-hop", read_assignments(["cues.2="])),
        "exercise_library/hops.yaml:15 nothing-there",
        "'ankle-hop' has no cues.2 to take out",
    ),
    (
        "an entry past the end",
        lambda at: change_movement(at, "ankle-hop", read_assignments(["cues.3=x"])),
        "exercise_library/hops.yaml:4 cannot-edit",
        "there is no place for this value; add the field that it belongs to first",
    ),
    (
        "no such movement",
        lambda at: change_movement(at, "ankle-hopp", read_assignments(["level=novice"])),
        ":0 unknown-movement",
        "the library exercise_library has no movement 'ankle-hopp'; did you mean 'ankle-hop'?",
    ),
    (
        "nothing like it",
        lambda at: change_movement(at, "zzz", read_assignments(["level=novice"])),
        ":0 unknown-movement",
        "has no movement 'zzz'; use one of: ankle-hop, knee-hop, back-squat",
    ),
    (
        "a copy of nothing",
        lambda at: place(wish("x", like="zzz"), at),
        ":0 unknown-movement",
        "has no movement 'zzz'",
    ),
    (
        "no entry to take out",
        lambda at: place(wish("x", "cues.2=", like="ankle-hop"), at),
        ":0 no-entry",
        "'cues.2=': the list ends at entry 1",
    ),
    (
        "an entry past the end of a copy",
        lambda at: place(wish("x", "cues.3=y", like="ankle-hop"), at),
        ":0 no-entry",
        "'cues.3=y': the list ends at entry 1",
    ),
    (
        "no family",
        lambda at: place(wish("x", "kind=jump"), at),
        ":0 no-family",
        "the movement has no family; name one with --family, such as hops, squats, or give --like ID",
    ),
    (
        "a family's file that is there",
        lambda at: add_family(at, "squats", {"id": "x"}),
        "exercise_library/squats.yaml:0 already-there",
        "this file already exists",
    ),
    (
        "a file without movements",
        lambda at: add_movement(at, "equipment.yaml", {"id": "x"}),
        "exercise_library/equipment.yaml:0 no-movements",
        "this file has no list of movements; name another family, or fix the file first",
    ),
    (
        "a file that is not there",
        lambda at: add_movement(at, "none.yaml", {"id": "x"}),
        "exercise_library/none.yaml:0 cannot-read",
        "there is no such file",
    ),
]


@pytest.mark.parametrize(("change", "at", "says"), [case[1:] for case in REFUSED], ids=[case[0] for case in REFUSED])
def test_what_cannot_be_done_is_told(library: Located, change: Change, at: str, says: str) -> None:
    with pytest.raises(UserError) as refused:
        change(library)
    (finding,) = refused.value.findings
    assert f"{finding.path}:{finding.line} {finding.code}" == at
    assert says in f"{finding.message}; {finding.hint}"


def test_a_movement_is_found_in_a_library_with_findings_and_what_is_broken_is_told_with_one_that_is_not(
    library: Located,
) -> None:
    (library.path / "squats.yaml").write_text("file: [\n", "utf-8")
    found = find_movement(library, "knee-hop")
    assert (found.name, found.index, found.data["name"]) == ("hops.yaml", 1, "Knee hop")
    with pytest.raises(UserError) as refused:
        find_movement(library, "back-squat")
    assert [one.code for one in refused.value.findings] == ["yaml-syntax", "unknown-movement"]


@pytest.mark.parametrize(
    ("movement", "name"),
    [
        ("one-leg-box-hop", "One-leg box hop"),
        ("two-leg-hop", "Two-leg hop"),
        ("box-hop-one-leg", "Box hop one leg"),
        ("pogo", "Pogo"),
    ],
)
def test_a_new_movement_without_a_name_is_called_by_its_id(movement: str, name: str) -> None:
    entry = new_entry(wish(movement, "source=own", "kind=jump"), None)
    assert entry == {"id": movement, "name": name, "kind": "jump", "source": "own"}
    assert list(entry) == ["id", "name", "kind", "source"]


FIELDS = ["kind=jump", "part=jump", "legs=both", "level=novice", "qualities=speed-exposure: 1", "stress=low-back: 1"]
MORE = ["dose.scheme=x", "cues=y"]


@pytest.mark.parametrize(
    ("asked", "asks"),
    [
        (wish(None, like="ankle-hop"), True),
        (wish("x"), True),
        (wish("x", like="ankle-hop"), False),
        (wish("x", *FIELDS, *MORE), False),
        (wish("x", *FIELDS, MORE[0]), True),
        (wish("x", *FIELDS, MORE[0], "cues="), True),
    ],
)
def test_a_coach_is_asked_only_where_too_little_is_said(asked: Wish, asks: bool) -> None:
    assert asked.needs_asking() is asks
