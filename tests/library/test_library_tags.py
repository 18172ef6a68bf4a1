"""Tags of joint stress agree with the published order of tasks, where there is one."""

from __future__ import annotations

from itertools import combinations
from pathlib import Path
from typing import Any

import pytest
from ruamel.yaml import YAML
from scipy.stats import spearmanr

from planner.domain.movement_library import Library

INDEX = YAML(typ="safe", pure=True).load(Path(__file__).with_name("patellar_index.yaml").read_text("utf-8"))
TASKS: list[dict[str, Any]] = INDEX["tasks"]
# Running is tagged by thirty metres, the other tasks by the set or the contact: the first floor leaves it out.
LEAST_RANK_CORRELATION = 0.8
LEAST_RANK_CORRELATION_WITH_RUNNING = 0.7


def knee_tag(library: Library, movement_id: str) -> int:
    return library[movement_id].stress.get("patellar-knee", 0)


def rank_correlation(library: Library, tasks: list[dict[str, Any]]) -> float:
    """Spearman's coefficient between published index and our tag."""
    return float(spearmanr([t["index"] for t in tasks], [knee_tag(library, t["movement"]) for t in tasks]).statistic)


def test_patellar_tags_follow_the_order_of_scattone_silva_2024(library: Library) -> None:
    in_order = [task for task in TASKS if task["movement"] not in INDEX["out_of_order"]]
    assert len(in_order) >= len(TASKS) - 1
    assert rank_correlation(library, in_order) >= LEAST_RANK_CORRELATION


def test_running_included_the_order_still_holds_roughly(library: Library) -> None:
    assert rank_correlation(library, TASKS) >= LEAST_RANK_CORRELATION_WITH_RUNNING


def test_every_inversion_of_that_order_is_owned_up_to(library: Library) -> None:
    """Two tasks whose tags stand the other way round than their indices: one of them gives its reason."""
    unexplained = [
        f"{low['movement']} ({low['index']}) is tagged above {high['movement']} ({high['index']})"
        for low, high in (sorted(pair, key=lambda task: task["index"]) for pair in combinations(TASKS, 2))
        if low["index"] < high["index"]
        and knee_tag(library, low["movement"]) > knee_tag(library, high["movement"])
        and not {low["movement"], high["movement"]} & set(INDEX["out_of_order"])
    ]
    assert unexplained == []


@pytest.mark.parametrize("task", TASKS, ids=lambda task: task["movement"])
def test_patellar_tags_follow_the_published_cut_offs(library: Library, task: dict[str, Any]) -> None:
    if task["movement"] in INDEX["out_of_order"]:
        assert knee_tag(library, task["movement"]) == 1, "no longer out of order as described: amend the list"
        return
    expected = 1 if task["index"] <= INDEX["low_up_to"] else 3 if task["index"] >= INDEX["high_from"] else 2
    assert knee_tag(library, task["movement"]) == expected


def test_achilles_tags_rise_from_seated_raise_to_one_leg_hop(library: Library) -> None:
    """Ends published (0.5 to 7.3 body weights, Baxter et al. 2021, MSSE 53:124); the steps between are secondary."""
    order = ["seated-calf-raise", "loaded-one-leg-calf-raise", "one-leg-forward-hop"]
    assert [library[m].stress["achilles-ankle"] for m in order] == [1, 2, 3]
    assert library["acceleration-20"].stress["achilles-ankle"] == 2


def test_one_leg_rebounds_are_the_heaviest_on_the_achilles(library: Library) -> None:
    """Hops, bounds and plants of one leg at full effort are tagged 3: common practice, no source."""
    plants = ["one-leg-pogo", "alternate-bounds-80", "full-approach-jump-one-leg", "one-leg-drop-jump"]
    assert {library[m].stress["achilles-ankle"] for m in plants} == {3}


def test_assistance_does_not_flood_the_lift_budgets(library: Library) -> None:
    """Curls, planks and anti-rotation work give no quality a set; ab- and adduction a quarter set at most."""
    for m in library:
        if m.part == "trunk" or "knee-flexion" in m.patterns:
            assert all(tag <= 1 for tag in m.qualities.values()), m.id


def test_eccentric_and_heavy_marks_stand_where_the_rules_look(library: Library) -> None:
    assert {m.id for m in library if m.eccentric_hamstring} == {
        m.id for m in library if m.dose.scheme == "eccentric-hamstring"
    }
    bar_hinges = {m.id for m in library if "hinge" in m.patterns and {"barbell", "trap-bar"} & set(m.equipment)}
    assert {m.id for m in library if m.heavy_hinge} == bar_hinges
