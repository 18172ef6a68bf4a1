"""``jumpblock library list``, ``show``, ``cover``: what they count is what the library holds."""

from __future__ import annotations

import pytest

from planner.domain.movement_library import Library
from planner.domain.terms import JOINTS, LEVELS, QUALITIES
from planner.files.file_checker import known_templates
from planner.files.load import load_library, review_of
from planner.files.sense.reach import Use, use_by
from planner.report.library_cover import cover
from planner.report.library_text import leaning_on
from tests.cli.conftest import CHECKOUT

PLAYER = CHECKOUT / "templates/athletes/in-season-player.yaml"


@pytest.fixture(scope="module")
def library() -> Library:
    return load_library(CHECKOUT / "exercise_library").require()


@pytest.mark.parametrize(
    ("words", "fits"),
    [
        (["--quality", "calf-ankle", "--tag", "3"], lambda m: m.qualities.get("calf-ankle") == 3),
        (["--joint", "hamstring"], lambda m: m.stress.get("hamstring", 0) >= 1),
        (["--equipment", "barbell,rack"], lambda m: {"barbell", "rack"} <= set(m.equipment)),
        (["--with", "none"], lambda m: not m.equipment),
        (["--with", "dumbbells,bands"], lambda m: set(m.equipment) <= {"dumbbells", "bands"}),
        (["--level", "advanced"], lambda m: m.level == "advanced"),
        (["--up-to", "intermediate"], lambda m: m.level != "advanced"),
        (["--kind", "hold"], lambda m: m.kind == "hold"),
        (["--legs", "one", "--kind", "lift"], lambda m: m.legs == "one" and m.kind == "lift"),
        (["--pattern", "approach"], lambda m: "approach" in m.patterns),
        (["--part", "trunk"], lambda m: m.part == "trunk"),
        (["--tier", "high"], lambda m: m.jump is not None and m.jump.tier == "high"),
        (["box", "JUMP"], lambda m: all(word in f"{m.id} {m.name}".lower() for word in ("box", "jump"))),
        (["--athlete", str(PLAYER)], lambda m: not {"trap-bar", "chains", "sled"} & set(m.equipment)),
    ],
)
def test_filters(run, library, words, fits):
    listed = {m["id"] for m in run("library", "list", *words, "--json").json}
    assert listed
    if "--athlete" in words:
        assert all(fits(library[name]) for name in listed) and len(listed) < len(library)
    else:
        assert listed == {m.id for m in library if fits(m)}


def test_the_trades_names_find_a_movement(run):
    assert run("library", "show", "conventional deadlift").out.startswith("Deadlift (straight-bar-hinge)")
    assert "also called" in run("library", "show", "straight-bar-hinge").out
    listed = {m["id"] for m in run("library", "list", "bulgarian", "--json").json}
    assert listed == {"rear-foot-split-squat", "rear-foot-split-squat-dumbbells"}


def test_a_name_that_two_movements_have_names_both_ids(run):
    outcome = run("library", "show", "RDL")
    assert outcome.code == 1 and "write dumbbell-hinge or straight-leg-bar-hinge" in outcome.err
    assert "did you mean 'strap-held-squat-hold' (Spanish squat)?" in run("library", "show", "spannish squat").err


def test_the_list_says_how_many_of_all(run, library):
    out = run("library", "list", "--kind", "hold").out
    assert out.splitlines()[-1] == f"{sum(m.kind == 'hold' for m in library)} of {len(library)} movements"
    assert run("library", "list", "zeppelin").out == "no movement in the library fits that\n"


def test_unknown_equipment_is_a_finding(run):
    outcome = run("library", "list", "--equipment", "barbel")
    assert outcome.code == 1 and "did you mean 'barbell'?" in outcome.err


def test_show_tells_the_chain_the_place_and_the_templates(run, library):
    out = run("library", "show", "back-squat").out
    path, _, line = library.places["back-squat"].rpartition(":")
    assert f"{path.rpartition('/')[2]}:{line}" in out
    for name in ("shallow-squat", "goblet-squat", "pause-back-squat", "drop-jump-45"):
        assert name in out
    data = run("library", "show", "back-squat", "--json").json
    assert data["chain"].index("goblet-squat") < data["chain"].index("back-squat")
    never = {use["template"] for use in data["templates"] if "why_not" in use}
    assert "youth-eight-week" in never and "eight-week" not in never


def test_show_names_what_it_opens_however_the_condition_is_spaced(library):
    drop = library["drop-jump-45"].model_copy(update={"requires": ("back-squat>=1.5 body mass",)})
    changed = Library({m.id: m for m in library} | {drop.id: drop}, library.families, library.equipment)
    assert drop.id in leaning_on(library["back-squat"], changed)["opens"]


def test_show_of_an_unknown_movement(run):
    outcome = run("library", "show", "back-squot")
    assert outcome.code == 1 and "did you mean 'back-squat'?" in outcome.err


def test_every_shipped_movement_can_be_planned_by_some_template(library):
    templates = known_templates(CHECKOUT / "exercise_library")
    assert len(templates) >= 3
    assert [m.id for m in library if not any(isinstance(use_by(m, t), Use) for t in templates)] == []


def test_cover_counts_cells_and_joints(run, library):
    data = run("library", "cover", "--athlete", PLAYER, "--json").json
    asked = review_of(library).cover
    assert data["kits"][-1] == "this athlete's gym"
    assert len(data["cells"]) == len(QUALITIES) * len(LEVELS) * len(data["kits"])
    for cell in data["cells"]:
        thin = len(cell["movements"]) < asked.least_movements or cell["families"] < asked.least_families
        assert cell["thin"] == thin
        assert all(library[name].qualities[cell["quality"]] == 3 for name in cell["movements"])
    for kit in data["kits"]:
        assert sum(j["share"] for j in data["joints"] if j["kit"] == kit) == pytest.approx(1, abs=0.001)
    assert {j["joint"] for j in data["joints"]} == set(JOINTS)


def test_taking_movements_away_makes_cells_thin(library):
    few = Library({"back-squat": library["back-squat"]}, {"back-squat": "squats"}, library.equipment)
    found = cover(few)
    assert all(cell.thin for cell in found.cells)
    assert [line.joint for line in found.joints["full gym"] if line.heavy] == ["patellar-knee", "low-back"]


def test_no_cell_of_the_shipped_library_is_thin(run):
    out = run("library", "cover").out
    assert "over-represented" in out and "No cell is thin" in out


def test_cover_in_words_names_what_is_thin(run, coach):
    """What is asked stands in the folder: the same movements are thin to a coach who asks for more."""
    review = coach / "exercise_library/review.yaml"
    text = review.read_text("utf-8")
    review.write_text(text.replace("least_movements: 3", "least_movements: 4", 1), "utf-8")
    out = run("library", "cover").out
    assert "fewer than 4 movements or 2 families" in out
    assert "maximal-strength, novice, body weight: tempo-squat, towel-pull-hinge, towel-pull-squat" in out
    review.write_text(text.replace("largest_share: 0.3", "largest_share: 0.5", 1), "utf-8")
    assert "over-represented\n" not in run("library", "cover").out


def test_the_gyms_of_the_cover_are_the_reviews(run, coach):
    review = coach / "exercise_library/review.yaml"
    text = review.read_text("utf-8")
    review.write_text(text.replace("{name: body weight, has: []}", "{name: club, has: [step, box]}"), "utf-8")
    assert run("library", "cover", "--json").json["kits"] == ["full gym", "dumbbells and bands", "club"]
    review.write_text(text.replace("has: [dumbbells, bands]", "has: [dumbbells, band]"), "utf-8")
    (finding,) = run("check", "exercise_library", "--json").json["findings"]
    assert (finding["path"], finding["code"]) == ("exercise_library/review.yaml", "unknown-equipment")
    assert "dumbbells, band]" in text.splitlines()[finding["line"] - 1].replace("bands", "band")
    assert "'bands'" in finding["hint"]


def test_a_folder_without_a_review_is_asked_what_the_shipped_one_is(run, coach, library):
    (coach / "exercise_library/review.yaml").unlink()
    asked = load_library(coach / "exercise_library").require()
    assert asked.review is None and review_of(asked) == review_of(library) == library.review
    assert "No cell is thin" in run("library", "cover").out


def test_a_second_review_is_told_with_the_first(run, coach):
    folder = coach / "exercise_library"
    (folder / "second.yaml").write_bytes((folder / "review.yaml").read_bytes())
    (finding,) = run("check", "exercise_library", "--json").json["findings"]
    assert finding["code"] == "second-review" and finding["path"] == "exercise_library/second.yaml"
    assert "exercise_library/review.yaml" in finding["message"]
