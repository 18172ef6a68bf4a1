"""Each idea has one word wherever a coach reads, and the words that it had before stay out.

Read are the strings of planner/ that may be printed (no docstrings), all comments and texts of templates/ and
exercise_library/, and README. What stays although it holds an old word is named below, each with its reason.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest
import yaml

from tests.architecture.imports import CHECKOUT, modules


@dataclass(frozen=True)
class Old:
    """A word that was once printed: what is said now, and a text of then that must be found."""

    pattern: str
    now: str
    drawn: str


OLD = (
    Old(
        r"\b(weekly|its|their|every|all) bands?\b|\b(over|under|(out|in)side|within|short of) (a|the) band\b"
        r"|\bbands? (met|missed|of (sets|contacts|sprints|efforts))\b",
        "weekly range",
        "7 places short of a band",
    ),
    Old(r"\bstand-?ins?\b", "estimate", "the stand-in push-off distance"),
    Old(r"\bhalf[- ]sure\b", "moderate confidence", "short of calf strength (half sure)"),
    Old(r"\bwaves?\b", "planned progression", "4 sets of 6 by the wave main-lift"),
    Old(r"\b(worse|better|less|more|best) liked\b", "second choice because …", "worse liked by the preferences"),
    Old(r"\bpriced\b", "over or under", "a priced shortfall of 12"),
    Old(r"\bshortfalls?\b", "over or under; a weekly range missed", "12 contacts of shortfall"),
    Old(r"\bdeterministic\b", "seconds of a usual computer", "40 deterministic seconds"),
    Old(r"\bRIR\b|\brepetitions? in reserve\b", "reps in reserve", "three repetitions in reserve"),
    Old(r"(^|[.:;>'\"] *)Mind\b", "Watch for", "Mind: step off, never jump off the box"),
    Old(
        r"\b(strength|speed|calf|force)-limited\b|\blimited by fast force(?! and speed)",
        "limited by calf strength",
        "the way to the target is calf-limited",
    ),
    Old(r"\bfell short\b|\bto spare\b", "short by, over by", "maximal strength 3 % to spare"),
    Old(r"\bmappings?\b", "a table, fields", "a mapping does not fit here"),
    Old(r"\b(not|all) (that was )?asked of it\b|\bnot as asked\b", "weekly range missed", "Not as asked: 3 under"),
    Old(r"\baim(s|ed) at \{?\d\S* to", "weekly range", "week 2 aims at 8 to 9 sets"),
    Old(r"\bshare of (the )?work\b", "emphasis", "share of the work: calf strength"),
    Old(r"\b(a|the) caps?\b(?! on)|\bA cap\b", "ceiling", "A cap on the most stressful contacts"),
    Old(r"\bcurrenc(y|ies)\b", "sets, contacts or sprints", "the currency of the week"),
    Old(r"(?<=[\w})%] )x (?=\{?[\d(]|confidence|stature|body mass|minutes|\{)", "×", "0.23 x stature"),
    Old(r"\b(patellar knee|achilles ankle)\b", "knee; Achilles and ankle", "on the left patellar knee"),
)  # fmt: skip

# Strings of planner/ that stay, by file and how they begin, each with its reason.
STAYS = {
    "fields of formats and stages of a proof, which are words of files": {
        ("cards/glyphs.py", "shortfalls"), ("cards/glyphs.py", "shortfall"), ("report/revise_data.py", "shortfalls"),
        ("solve/make_block.py", "shortfalls"), ("report/why_data.py", "wave"), ("report/why_text.py", "wave"),
    },
    "what the YAML package says, to be told in other words": {("files/syntax.py", "mapping values are not allowed")},
    "the name of a type, for type checkers": {("files/sense/tags.py", "Mapping[str, int]")},
    "as a set is typed on a keyboard; both signs are read": {
        (
            "cli/new.py",
            "A hard set, such as 'back-squat 100 kg x 4, 2 left'; may be given more than once [default: none].",
        ),
        ("files/typed_loads.py", "write all that was lifted as one load, such as 40 kg x 6"),
        ("files/typed_sets.py", "write {0} x {0}{0}"),
        ("jobs/battery_results.py", "{0} x {0}; 2 left"),
        ("files/typed_tests.py", "290 lb x 4; 2 left"),
        ("jobs/new_athlete.py", "A hard set of a lift, such as back-squat {} x 4, 2 left (Enter: none)"),
        ("jobs/athlete_answers.py", "write lift, load, reps and how many were left: back-squat 100 kg x 4, 2 left"),
        ("files/typed_sets.py", "110 kg x 6, 6, 5; 2 left"), ("files/typed_tests.py", "132.5 kg x 4; 2 left"),
        ("files/typed_sets.py", "'{0} x {0}' would be {0} sets"), ("files/tests_sheet.py", "{0} x {0}{0}"),
        ("jobs/log_block.py", "sets and reps such as 3 x 4"),
        ("cli/log.py", "Write down what was done"), ("cli/test.py", "Write the results of a test day"),
    },
}  # fmt: skip
# Comments and texts of YAML, and lines of README.
STAYS_IN_FILES = {
    "a heading of other people's spreadsheets, which is read": {"rir"},
    "the place on a curve's axis is called x": {"at x 2.5", "at x 3.1"},
    "as a set is typed on a keyboard": {'--item 4 "125 kg x 4; 3 left"'},
}


def found_in(text: str) -> Iterator[str]:
    for old in OLD:
        if re.search(old.pattern, text, re.MULTILINE | (0 if "Mind" in old.pattern else re.IGNORECASE)):
            yield old.now


def is_command(node: ast.AST) -> bool:
    """A function whose docstring click prints as help."""
    decorators = getattr(node, "decorator_list", ()) if isinstance(node, ast.FunctionDef) else ()
    return any(re.search(r"\.(command|group)\b", ast.unparse(one)) for one in decorators)


def printed(path: Path) -> Iterator[tuple[int, str]]:
    """The strings of a module that are no docstring but a command's, whole: what an f-string fills in is ``{}``."""
    tree = ast.parse(path.read_text("utf-8"))
    skipped: set[int] = set()
    for node in ast.walk(tree):
        body = getattr(node, "body", None)
        if isinstance(body, list) and body and isinstance(body[0], ast.Expr) and not is_command(node):
            skipped.add(id(body[0].value))
        if isinstance(node, ast.JoinedStr):
            skipped |= {id(part) for part in node.values}
    for node in ast.walk(tree):
        if isinstance(node, ast.JoinedStr):
            parts = [str(part.value) if isinstance(part, ast.Constant) else "{0}" for part in node.values]
            yield node.lineno, "".join(parts)
        elif isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in skipped:
            yield node.lineno, node.value


def comments_and_texts(text: str) -> Iterator[tuple[int, str]]:
    """All that a YAML file says but its keys: values, and what stands behind ``#``."""
    rest, is_key = list(text), False
    for token in yaml.scan(text):
        if isinstance(token, yaml.ScalarToken):
            if not is_key:
                yield token.start_mark.line + 1, token.value
            start, end = token.start_mark.index, token.end_mark.index
            rest[start:end] = ["\n" if sign == "\n" else " " for sign in rest[start:end]]
        is_key = isinstance(token, yaml.KeyToken)
    for number, line in enumerate("".join(rest).split("\n"), start=1):
        if "#" in line:
            yield number, line.partition("#")[2].strip()


@cache
def yaml_files() -> tuple[Path, ...]:
    return tuple(
        sorted(path for name in ("templates", "exercise_library") for path in (CHECKOUT / name).rglob("*.yaml"))
    )


def allowed(path: Path, text: str) -> bool:
    name = path.relative_to(CHECKOUT / "planner").as_posix()
    return any(file == name and text.startswith(begins) for entries in STAYS.values() for file, begins in entries)


@pytest.mark.parametrize("old", OLD, ids=lambda old: old.now)
def test_each_old_word_would_be_found(old: Old) -> None:
    assert old.now in list(found_in(old.drawn))
    assert not list(found_in(old.now)), "what is said now is no old word"


def test_no_string_of_planner_has_an_old_word() -> None:
    found = [
        f"{path.relative_to(CHECKOUT)}:{line}: {text!r}: say {', '.join(said)}"
        for path in modules()
        for line, text in printed(path)
        if not allowed(path, text) and (said := list(found_in(text)))
    ]
    assert not found, "\n".join(found)


def test_no_template_no_library_and_no_readme_has_an_old_word() -> None:
    texts = [(path, line, text) for path in yaml_files() for line, text in comments_and_texts(path.read_text("utf-8"))]
    readme = CHECKOUT / "README.md"
    texts += [(readme, line, text) for line, text in enumerate(readme.read_text("utf-8").split("\n"), start=1)]
    assert len(texts) > 5000
    stays = [text for entries in STAYS_IN_FILES.values() for text in entries]
    found = []
    for path, line, text in texts:
        for held in stays:
            text = text.replace(held, "") if held != text else ""
        if said := list(found_in(text)):
            found.append(f"{path.relative_to(CHECKOUT)}:{line}: {text!r}: say {', '.join(said)}")
    assert not found, "\n".join(found)


def test_what_stays_is_still_there() -> None:
    for file, begins in (entry for entries in STAYS.values() for entry in entries):
        texts = [text for _, text in printed(CHECKOUT / "planner" / file)]
        assert any(text.startswith(begins) and list(found_in(text)) for text in texts), f"{file}: {begins}"
