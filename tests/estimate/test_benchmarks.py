"""A benchmarks file with something missing is refused with a message; every part of the shipped one has a source."""

import pytest
from pydantic import ValidationError

from planner.domain.benchmarks import Benchmarks
from planner.files.load import load_bytes
from tests.estimate.people import CHECKOUT, read

SHIPPED = (CHECKOUT / "templates/benchmarks/standard.yaml").read_text("utf-8")


def without(*keys):
    data = read(SHIPPED)
    part = data
    for key in keys[:-1]:
        part = part[key]
    del part[keys[-1]]
    return data


@pytest.mark.parametrize(
    ("keys", "words"),
    [
        (("qualities", "calf-ankle"), "add a line for calf-ankle"),
        (("take_offs", "two-leg"), "add a line for two-leg"),
        (("test_kinds", "touch", "length_error"), "exactly one of length_error"),
        (("platform", "source"), "Field required"),
        (("outlook", "source"), "Field required"),
        (("qualities", "maximal-strength", "tests", 0, "lift"), "add lift: which movements"),
        (("qualities", "maximal-strength", "tests", 0, "curves", "one-leg"), "add a line for one-leg"),
        (("qualities", "maximal-strength", "tests", 0, "source"), "Field required"),
    ],
)
def test_a_part_left_out_is_refused(keys, words):
    with pytest.raises(ValidationError, match=words):
        Benchmarks.model_validate(without(*keys))


@pytest.mark.parametrize(
    ("old", "new", "line_of", "words"),
    [
        ("{reps: 4, percent: 90}", "{reps: 4, percent: 96}", "  load_repetitions:", "out of order"),
        ("  one-leg-hop:\n", "  one-leg-hopp:\n", "  one-leg-hopp:", "did you mean 'one-leg-hop'"),
        ("        free_form_factor: 0.65 #", "        # 0.65", None, ""),
        ("kind: drop-jump\n        sides: both\n        need_in: body-weights\n        curves:\n          one-leg:",
         "kind: drop-jump\n        sides: both\n        need_in: body-weights\n        curves:\n          two-legs:",
         None, "one-leg"),
    ],
)  # fmt: skip
def test_a_coach_s_file_is_told_what_is_missing_where_it_is(old, new, line_of, words):
    assert old in SHIPPED
    text = SHIPPED.replace(old, new)
    findings = load_bytes(text.encode(), "b.yaml", ("benchmarks/1",)).findings
    assert [finding for finding in findings if finding.code == "not-valid"] == []
    said = " ".join(f"{finding.message} {finding.hint}" for finding in findings)
    assert words in said
    if line_of is not None:
        assert text.splitlines().index(line_of) + 1 in {finding.line for finding in findings}


@pytest.mark.parametrize(("row", "percent"), [(3, 93.0), (3, 95.0)], ids=["the same", "more"])
def test_a_load_repetition_table_that_does_not_fall_is_refused(row, percent):
    data = read(SHIPPED)
    data["strength"]["load_repetitions"][row]["percent"] = percent
    with pytest.raises(ValidationError, match="more repetitions at a lower percentage"):
        Benchmarks.model_validate(data)


def test_every_source_of_the_shipped_file_says_its_standing(benchmarks):
    """Published (a year), common practice, from memory, or a judgement: every figure has one of these."""

    def sources(value):
        if isinstance(value, dict):
            for key, inner in value.items():
                if key.endswith("source"):
                    yield inner
                else:
                    yield from sources(inner)
        elif isinstance(value, list):
            for inner in value:
                yield from sources(inner)

    found = list(sources(read(SHIPPED)))
    assert len(found) > 20
    words = ("common practice", "from memory", "judgement", "(1", "(2", "19", "20", "the curves are drawn for", "NSCA")
    assert [source for source in found if not any(word in source for word in words)] == []
