"""Every rule on its own cases, without the solver: what the audit finds, in which words, and what the rows say."""

from __future__ import annotations

import re

import pytest

from planner.audit import audit
from planner.rules.registry import all_rules, rule_by_id
from planner.rules.rule import Rule
from tests.rules.as_values import Rows, as_values, out_of_range, rules_of
from tests.rules.cases import AUDIT_ONLY, Case, all_cases, case_files, cases_of
from tests.rules.kept_blocks import kept_block, kept_problem, shipped_problem
from tests.solve.demos import DEMOS

MOST_TITLE_WORDS = 8
STANDINGS = ("common practice, no source", "from memory", "the athlete's file", "the library's requires line")
CASES = all_cases()


def _name(case: Case) -> str:
    return f"{case.rule}: {case.name}"


@pytest.mark.parametrize("case", CASES, ids=_name)
def test_the_audit_finds_what_the_case_says(case: Case) -> None:
    sentences = [breach.sentence for breach in case.breaches()]
    if case.finds is None:
        assert sentences
    else:
        assert len(sentences) == case.finds, sentences
    for fragment in case.says:
        assert any(fragment in sentence for sentence in sentences), (fragment, sentences)
    assert case.silent is None or not any(case.silent in sentence for sentence in sentences), sentences


@pytest.mark.parametrize("case", [c for c in CASES if c.in_rows and c.rule not in AUDIT_ONLY], ids=_name)
def test_the_rows_say_what_the_audit_says(case: Case) -> None:
    """Fixed to the block's values, the model's rows of this rule hold or fail as the audit does."""
    rule, planned = rule_by_id(case.rule), case.problem()
    assert rule is not None
    back = as_values(case.block(), planned)
    assert not back.lost
    missed = Rows(planned, list(rule.rows(planned))).missed(back.values)
    assert bool(missed) == case.fails, [row.name for row in missed]


@pytest.mark.parametrize("demo", DEMOS)
def test_a_kept_block_passes_every_audit_and_every_row(demo: str) -> None:
    block, planned = kept_block(demo), kept_problem(demo)
    assert [breach.sentence for breach in audit(block, planned)] == []
    back = as_values(block, planned)
    assert not back.lost
    assert out_of_range(back.values, planned) == []
    assert rules_of(Rows(planned).missed(back.values)) == []


def test_every_rule_has_its_file_of_cases_and_every_file_its_rule() -> None:
    assert [path.stem for path in case_files()] == [rule.id for rule in all_rules()]
    assert all(case.rule == path.stem for path in case_files() for case in cases_of(path))


@pytest.mark.parametrize("rule", all_rules(), ids=lambda rule: rule.id)
def test_a_rule_is_complete(rule: Rule) -> None:
    own = [case for case in CASES if case.rule == rule.id]
    assert any(case.fails for case in own), "no failing case"
    assert any(not case.fails for case in own), "no passing case"
    assert any(case.fails and case.says for case in own), "no failing case gives its words"
    if rule.id not in AUDIT_ONLY:
        assert any(case.fails and case.in_rows for case in own), "no failing case is tried on the rows"
    assert rule.says and rule.source and rule.unit
    assert 0 < len(rule.title.split()) <= MOST_TITLE_WORDS
    assert len({case.name for case in own}) == len(own)


@pytest.mark.parametrize("rule", all_rules(), ids=lambda rule: rule.id)
def test_a_rule_has_rows_or_says_why_not(rule: Rule) -> None:
    if rule.id in AUDIT_ONLY:
        assert not any(list(rule.rows(shipped_problem(demo))) for demo in DEMOS)
    else:
        assert any(list(rule.rows(case.problem())) for case in CASES if case.rule == rule.id)


@pytest.mark.parametrize("rule", all_rules(), ids=lambda rule: rule.id)
def test_a_rules_source_says_how_far_it_can_be_trusted(rule: Rule) -> None:
    """A publication by author and year, the file that the limit comes from, or that there is none."""
    published = re.search(r"\b(19|20)\d\d\b", rule.source) or re.search(r"\bNSCA\b", rule.source)
    assert published or any(words in rule.source for words in STANDINGS), rule.source


def test_rules_have_ids_and_titles_of_their_own() -> None:
    assert len({rule.id for rule in all_rules()}) == len({rule.title for rule in all_rules()}) == len(all_rules())
    assert all(re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", rule.id) for rule in all_rules())
    assert all(rule.says.endswith(".") and not rule.title.endswith(".") for rule in all_rules())
