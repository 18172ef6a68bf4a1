"""Movements that do not fit together: whole sentences on their lines, and silence right at the limit."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from planner.domain.findings import Finding
from planner.files.document import Loaded
from planner.files.dump import plain_to_yaml
from planner.files.load import load_library
from planner.files.sense.conditions import has_maximum

ROOT = Path(__file__).parents[2]
JUMP = {"direction": "vertical", "approach": "standing", "tier": "medium"}


def lift(name: str, **fields: Any) -> dict[str, Any]:
    dose = {"scheme": "main-lift", "load": "reserve", "set_time": "40 s", "rest": "120 s", **fields.pop("dose", {})}
    own: dict[str, Any] = {"id": name, "name": name, "kind": "lift", "part": "main-lift", "legs": "both"}
    own |= {"level": "intermediate", "qualities": {}, "stress": {}, "cues": ["Push"], "source": "own"}
    return {**own, **fields, "dose": dose}


def library(folder: Path, *movements: dict[str, Any]) -> Loaded[Any]:
    things = [{"id": "rack", "name": "Rack"}]
    for name, data in (
        ("equipment", {"file": "equipment/1", "equipment": things}),
        ("lifts", {"file": "movements/1", "family": "lifts", "movements": list(movements)}),
    ):
        (folder / f"{name}.yaml").write_text(plain_to_yaml(data), "utf-8")
    return load_library(folder, "library")


def told(folder: Path, *movements: dict[str, Any]) -> list[str]:
    """Each finding with the movement and the field that its line is at."""
    loaded = library(folder, *movements)
    return [f"{_at(folder, one)} {one.code}: {one.message}; {one.hint}" for one in loaded.findings]


def _at(folder: Path, finding: Finding) -> str:
    lines = (folder / "lifts.yaml").read_text("utf-8").splitlines()
    above = [line.rpartition("id: ")[2].strip() for line in lines[: finding.line] if "- id: " in line]
    field = finding.source_line[finding.column - 1 :].partition(":")[0].strip()
    key = finding.source_line.strip().removeprefix("- ").partition(":")[0]
    return f"{above[-1]}.{key if key in ('kind', 'easier', 'harder', 'part', 'dose', 'jump', 'sprint') else field}"


def jump(name: str, **fields: Any) -> dict[str, Any]:
    made = {"kind": "jump", "part": "jump", "jump": JUMP, "dose": {"scheme": "medium-tier-jump", "load": "none"}}
    return lift(name, **{**made, **fields})


FITTING: dict[str, list[dict[str, Any]]] = {
    "a chain that rises": [
        lift("a", level="novice", harder="b"),
        lift("b", easier="a", harder="c"),
        lift("c", level="advanced", easier="b"),
    ],
    "a chain on one level": [lift("a", harder="b"), lift("b", easier="a")],
    "two ways up to one": [lift("a", harder="c"), lift("b", harder="c"), lift("c", easier="a")],
    "asks for a lift of its level": [lift("a"), lift("b", requires=["a >= 1 body mass"])],
    "percent of itself": [lift("a", dose={"load": "percent", "of": "a"})],
    "a jump with a drop and a rebound": [jump("a", jump={**JUMP, "drop": "40 cm", "rebound": True})],
    "a skill with contacts": [jump("a", kind="skill", part="skill")],
    "a lift that hinges": [lift("a", patterns=["hinge"])],
}


@pytest.mark.parametrize("movements", FITTING.values(), ids=FITTING)
def test_what_fits_is_not_told(tmp_path: Path, movements: list[dict[str, Any]]) -> None:
    assert told(tmp_path, *movements) == []


COUNT_IT = "make it kind: jump with direction, approach and tier, or change its part or patterns"
CASES: dict[str, tuple[list[dict[str, Any]], list[str]]] = {
    "a circle, told once and at its first": (
        [lift("b", harder="c"), lift("c", harder="a"), lift("a", harder="b")],
        ["a.harder neighbour-loop: 'harder' goes round in a circle: a -> b -> c -> a; break it at one of them"],
    ),
    "a circle of easier ones": (
        [lift("a", easier="b"), lift("b", easier="a")],
        ["a.easier neighbour-loop: 'easier' goes round in a circle: a -> b -> a; break it at one of them"],
    ),
    "a circle that another leads into": (
        [lift("a", harder="b"), lift("b", harder="c"), lift("c", harder="b")],
        ["b.harder neighbour-loop: 'harder' goes round in a circle: b -> c -> b; break it at one of them"],
    ),
    "itself": (
        [lift("a", harder="a")],
        ["a.harder neighbour-loop: 'harder' goes round in a circle: a -> a; break it at one of them"],
    ),
    "the way up leads down": (
        [lift("a", easier="c", harder="b"), lift("b", harder="c"), lift("c")],
        [
            "a.easier neighbours-disagree: 'c' is given as easier than 'a', but the way up leads to it: a -> b -> c; "
            "say which of the two is harder"
        ],
    ),
    "easier and harder the same": (
        [lift("a", easier="b", harder="b"), lift("b")],
        [
            "a.easier neighbours-disagree: 'b' is given as easier than 'a', but the way up leads to it: a -> b; "
            "say which of the two is harder"
        ],
    ),
    "the way up leads down by an easier one": (
        [lift("a", easier="c", harder="b"), lift("b"), lift("c", easier="b")],
        [
            f"{one}.easier neighbours-disagree: '{easier}' is given as easier than '{one}', but the way up leads to "
            f"it: {way}; say which of the two is harder"
            for one, easier, way in (("a", "c", "a -> b -> c"), ("c", "b", "c -> a -> b"))
        ],
    ),
    "the easier is of a higher level": (
        [lift("a", easier="b"), lift("b", level="advanced")],
        [
            "a.easier neighbour-level: the easier 'b' is advanced, and 'a' is intermediate; check both levels",
        ],
    ),
    "the harder is of a lower level": (
        [lift("a", harder="b"), lift("b", level="novice")],
        ["a.harder neighbour-level: the harder 'b' is novice, and 'a' is intermediate; check both levels"],
    ),
    "percent of a body-weight lift": (
        [lift("a", dose={"load": "percent", "of": "b"}), lift("b", dose={"load": "none"})],
        [
            "a.dose reference-without-maximum: 'a' is dosed in percent of 'b', which has no maximum: it is dosed "
            "without a load; name a loaded lift"
        ],
    ),
    "percent of a jump": (
        [lift("a", dose={"load": "percent", "of": "b"}), jump("b")],
        [
            "a.dose reference-without-maximum: 'a' is dosed in percent of 'b', which has no maximum: it is a jump; "
            "name a loaded lift"
        ],
    ),
    "asks for a hold": (
        [lift("a", requires=["b >= 1 body mass"]), lift("b", kind="hold")],
        [
            "a.b >= 1 body mass] condition-nobody-meets: 'a' asks for a maximum in 'b', which has none: it is a hold; "
            "name a loaded lift"
        ],
    ),
    "asks for itself": (
        [lift("a", requires=["a >= 1 body mass"])],
        [
            "a.a >= 1 body mass] condition-nobody-meets: 'a' asks for itself first, so nobody can begin with it; "
            "delete one of the two conditions"
        ],
    ),
    "asks in a ring of three": (
        [lift(one, requires=[f"{of} >= 1 body mass"]) for one, of in ("ab", "bc", "ca")],
        [
            f"{one}.{of} >= 1 body mass] condition-nobody-meets: '{one}' asks for '{of}' first, and '{of}' for "
            f"'{one}'; delete one of the two conditions"
            for one, of in ("ab", "bc", "ca")
        ],
    ),
    "asks for a harder lift": (
        [lift("a", requires=["b >= 1 body mass"]), lift("b", level="advanced")],
        [
            "a.b >= 1 body mass] condition-above-level: 'a' is intermediate and asks first for 'b', which is advanced; "
            "raise its level, or ask for an easier lift"
        ],
    ),
    "a jump without its field": (
        [lift("a", kind="jump")],
        [
            "a.kind jump-without-jump: 'a' is a jump without a 'jump' field; add jump with direction, approach and "
            "tier, so that its contacts count"
        ],
    ),
    "a lift with contacts": (
        [lift("a", jump=JUMP)],
        [
            "a.jump jump-of-no-jump: 'a' is of kind lift; only a jump or a skill has contacts; change the kind, or "
            "delete jump"
        ],
    ),
    "a lift that leaps": (
        [lift("a", patterns=["hinge", "horizontal-jump"])],
        [
            "a.horizontal-jump] contacts-uncounted: 'a' has the pattern horizontal-jump but no 'jump' field, so its "
            f"contacts would not count; {COUNT_IT}"
        ],
    ),
    "a lift among the approach jumps": (
        [lift("a", part="approach-jump")],
        [
            "a.part contacts-uncounted: 'a' has the part approach-jump but no 'jump' field, so its contacts would not "
            f"count; {COUNT_IT}"
        ],
    ),
    "a sprint without its field": (
        [lift("a", kind="sprint", part="sprint")],
        ["a.kind sprint-without-sprint: 'a' is a sprint without a 'sprint' field; add sprint with sort and distance"],
    ),
    "a lift with a distance": (
        [lift("a", sprint={"sort": "flying", "distance": "20 m"})],
        [
            "a.sprint sprint-of-no-sprint: 'a' is of kind lift; only a sprint has a 'sprint' field; change the kind, "
            "or delete sprint"
        ],
    ),
    "a rebound from no drop": (
        [jump("a", jump={**JUMP, "rebound": True})],
        ["a.jump rebound-without-drop: 'a' rebounds without a drop; add drop, or delete rebound"],
    ),
    "percent of nothing": (
        [lift("a", dose={"load": "percent"})],
        ["a.dose percent-of-nothing: 'a' is dosed in percent but names no reference lift; add of, such as of: a"],
    ),
    "a reference for nothing": (
        [lift("a", dose={"of": "a"})],
        [
            "a.dose reference-unused: 'a' names a reference lift but is not dosed in percent; write load: percent, or "
            "delete of"
        ],
    ),
}


@pytest.mark.parametrize(("movements", "says"), CASES.values(), ids=CASES)
def test_what_does_not_fit_is_told_whole(tmp_path: Path, movements: list[dict[str, Any]], says: list[str]) -> None:
    assert told(tmp_path, *movements) == says


def test_what_only_looks_wrong_keeps_the_library(tmp_path: Path) -> None:
    for movements in (
        [lift("a", easier="b"), lift("b", level="advanced")],
        [lift("a", requires=["b >= 1 body mass"]), lift("b", level="advanced")],
        [lift("a", dose={"of": "a"})],
    ):
        loaded = library(tmp_path, *movements)
        assert loaded.value is not None and {one.level for one in loaded.findings} == {"warning"}


def test_only_a_loaded_lift_has_a_maximum(tmp_path: Path) -> None:
    found = library(tmp_path, lift("a"), lift("b", dose={"load": "none"}), jump("c"), lift("d", kind="hold")).require()
    assert [has_maximum(movement) for movement in found] == [True, False, False, False]


@pytest.mark.parametrize("field", [{"jump": JUMP}, {"sprint": {"sort": "flying", "distance": "20 m"}}])
def test_a_field_of_another_kind_is_pointed_at_by_its_name(tmp_path: Path, field: dict[str, Any]) -> None:
    (found,) = library(tmp_path, lift("a", **field)).findings
    assert found.source_line[found.column - 1 :].startswith(next(iter(field)))


def test_equipment_that_a_review_names_must_be_known(tmp_path: Path) -> None:
    """The shipped review names more than a rack: each thing is told on its line of the review."""
    (tmp_path / "review.yaml").write_text((ROOT / "exercise_library/review.yaml").read_text("utf-8"), "utf-8")
    found = library(tmp_path, lift("a")).findings
    assert {(one.path, one.code) for one in found} == {("library/review.yaml", "unknown-equipment")}
    named = [one.message.split("'")[1] for one in found]
    assert "rack" not in named and "dumbbells" in named
    assert all(name in one.source_line for name, one in zip(named, found, strict=True))


def test_a_tag_unlike_the_family_s_is_told_at_its_figure_or_where_it_is_missing(tmp_path: Path) -> None:
    alike = [lift(name, stress={"hamstring": 2, "low-back": 1}) for name in "bcd"]
    (found,) = library(tmp_path, *alike, lift("a", stress={"hamstring": 2, "low-back": 3})).findings
    assert (found.code, found.level) == ("tag-apart", "note")
    assert found.message == "'a' is tagged low-back: 3; the others of its family have 1 (b, c, d)"
    assert found.hint == "check it; if it is meant, say why in source, and name low-back there"
    assert found.source_line[found.column - 1 :] == "3}"
    (found,) = library(tmp_path, *alike, lift("a", stress={"low-back": 1})).findings
    assert found.message.startswith("'a' is tagged hamstring: 0; the others of its family have 2")
    assert found.source_line[found.column - 1 :] == "{low-back: 1}"
    said = "hamstring 0, since it is done with bent knees"
    assert library(tmp_path, *alike, lift("a", stress={"low-back": 1}, source=said)).findings == ()
    assert library(tmp_path, *alike[:1], lift("a", stress={"low-back": 1})).findings == ()  # too few to be apart from
