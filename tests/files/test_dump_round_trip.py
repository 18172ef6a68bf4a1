"""A block that is written reads back as the same block, from YAML and from JSON, and is written the same each time."""

from __future__ import annotations

import datetime
import json
import time

from hypothesis import HealthCheck, given, settings

from files.random_models import AWKWARD, instances
from planner.domain.block import Block, Item, Session
from planner.files.dump import LATER_FIELDS, block_to_json, block_to_yaml, plain_to_yaml
from planner.files.load import load_bytes
from planner.files.text import HIDDEN, split_lines

DATE = datetime.date(2025, 9, 8)
LINE = (
    "rise_m",
    "take_off_speed_m_s",
    "net_impulse_Ns",
    "mean_net_force_N",
    "mean_ground_force_N",
    "mean_ground_force_bw",
)
RANDOM = settings(max_examples=30, deadline=None, suppress_health_check=list(HealthCheck), derandomize=True)


@RANDOM
@given(instances(Block))
def test_random_blocks(block: Block) -> None:
    for text in (block_to_yaml(block), block_to_json(block)):
        loaded = load_bytes(text.encode("utf-8"), "block.yaml")
        assert loaded.findings == ()
        assert loaded.value == block
        assert block_to_yaml(loaded.value) == block_to_yaml(block)  # type: ignore[arg-type]


def _block(cue: str, weeks: int = 1, sessions: int = 1, items: int = 1) -> Block:
    """A block whose every text is ``cue``; numbers are of a usual size."""
    line = dict.fromkeys([f"{name}{end}" for name in LINE for end in ("", "_se")], 1.25)
    item = {
        "id": "w1s1i1", "part": "jump", "movement": "ankle-hop", "name": cue, "side": "both", "sets": 3, "reps": 5,
        "load_kg": 62.5, "rest_s": 90, "contacts": 15, "tier": "low", "cues": [cue, cue], "cautions": [cue],
    }  # fmt: skip
    session = {
        "id": "w1s1", "date": DATE, "minutes": 60, "hard_day": True, "why": cue, "focus": cue, "warm_up_minutes": 10,
        "items": [item] * items,
    }  # fmt: skip
    band = {"low": 1.5, "high": 2.5}
    week = {
        "number": 1, "phase": cue, "role": "build", "start": DATE,
        "totals": {
            "working_sets": {"calf-ankle": 7.25}, "contacts": {"low": 15}, "sprint_efforts": 3, "sprint_m": 60.0,
            "joint_stress": {"achilles-ankle": {"left": 10.5, "right": 12.0}},
        },
        "bands": {
            "working_sets": {"calf-ankle": band}, "contacts": band, "tiers": {"low": band}, "sprint_efforts": band,
            "joint_stress": {"achilles-ankle": 50.0},
        },
        "sessions": [session] * sessions,
    }  # fmt: skip
    reference = {"path": "athletes/nora.yaml", "sha256": "0123456789" * 6 + "0123"}
    gap = {
        "method": cue, "contact_time_s": 0.2, "contact_time_from": cue, "push_off_m": None, "body_mass_kg": 71.4,
        "inside_noise": False, "now": line, "target": line, "gap": line, "qualities": [], "strength_share": None,
        "speed_share": 0.1, "next_test": cue, "story": [cue], "notes": [],
    }  # fmt: skip
    return Block.model_validate(
        {
            "file": "block/1", "id": cue, "athlete": reference, "library": reference, "template": reference,
            "benchmarks": reference, "made_with": cue, "rules_version": cue, "seed": 0, "deterministic_time": 1e-7,
            "plan_sha256": "1e" + "5" * 62, "template_name": cue, "gap": gap, "shortfalls": [], "cautions": [cue],
            "for_athlete": {
                "name": cue, "level": cue, "take_off": cue, "target": cue, "mass_unit": "kg", "length_unit": "cm",
                "paper": "a4",
            },
            "proof": {"status": "optimal", "scope": "library", "stages": []},
            "weeks": [week] * weeks,
        }
    )  # fmt: skip


def test_awkward_words_read_back() -> None:
    for word in AWKWARD:
        block = _block(word)
        for text in (block_to_yaml(block), block_to_json(block)):
            assert not any(HIDDEN.search(line) for line in split_lines(text))
            assert load_bytes(text.encode(), "block.yaml").value == block, (word, text[:200])


def test_readable_numbers_and_words_stay_bare() -> None:
    text = block_to_yaml(_block("land softly, 3-4 sets × 6"))
    assert text.startswith("file: block/1\n")
    assert "load_kg: 62.5\n" in text
    assert "hold_s: null\n" in text
    assert "sprint_m: 60\n" in text
    assert "deterministic_time: 1e-07\n" in text
    assert "date: 2025-09-08\n" in text
    assert "name: land softly, 3-4 sets × 6\n" in text
    assert "calf-ankle: {low: 1.5, high: 2.5}" in text


def test_json_has_the_keys_of_the_yaml_in_the_same_order() -> None:
    block = _block("land softly")
    keys = list(json.loads(block_to_json(block)))
    assert keys == [name for name in Block.model_fields if name not in LATER_FIELDS]
    assert [line.split(":")[0] for line in block_to_yaml(block).splitlines() if line[:1].isalpha()] == keys
    item = json.loads(block_to_json(block))["weeks"][0]["sessions"][0]["items"][0]
    assert list(item) == list(Item.model_fields)
    assert item["percent"] is None


def test_eight_weeks_are_written_in_well_under_a_second() -> None:
    block = _block("land softly and stand still before the next one", weeks=8, sessions=4, items=7)
    began = time.process_time()  # of the process: what else the machine does is no matter
    text = block_to_yaml(block)
    assert time.process_time() - began < 1.0
    assert len(text) < 400_000
    assert load_bytes(text.encode(), "block.yaml").value == block


def test_part_of_a_block_can_be_written_too() -> None:
    session: Session = _block("a").weeks[0].sessions[0]
    assert plain_to_yaml(session.model_dump()).startswith("id: w1s1\ndate: 2025-09-08\n")
