"""What is said and done about a rule is in its own file: nothing outside planner/rules knows a rule by its id."""

from __future__ import annotations

import ast

from planner.rules.registry import all_rules
from tests.architecture.imports import PACKAGE, modules

# Ids that are also words of something else: fields of our files, roles of weeks, a finding made before any rule.
FIELDS = {"bans", "pins", "equipment", "level", "runway", "pain"}
ROLES = {"deload", "taper"}
ALSO_WORDS = {
    "cli": FIELDS,
    "domain": ROLES | {"pain", "level"},
    "estimate": set(),
    "files": FIELDS | ROLES,
    "jobs": {"equipment", "level", "pain"},
    "problem": FIELDS | ROLES | {"growth", "test-day"},
    "report": FIELDS,
    "solve": ROLES,
}
THE_COACHS_WORD = PACKAGE / "problem" / "high_tier.py"  # names the gate that ``allow`` opens, for the rule to use


def test_no_rule_is_named_outside_the_rules():
    ids, wrong = {rule.id for rule in all_rules()}, []
    for path in modules():
        floor = path.relative_to(PACKAGE).parts[0]
        if floor == "rules" or path == THE_COACHS_WORD:
            continue
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Constant) and node.value in ids - ALSO_WORDS.get(floor, set()):
                wrong.append(f"{path.relative_to(PACKAGE)}:{node.lineno}: {node.value}")
    assert not wrong, "\n".join(wrong)


def test_the_words_that_are_also_ids_are_used():
    """The list above does not outlive its reasons."""
    ids = {rule.id for rule in all_rules()}
    assert FIELDS | ROLES | {"test-day"} <= ids
