"""Everything that a file of ours must not hold is refused with a finding on its line."""

from __future__ import annotations

import time

import pytest

from files.snippets import ATHLETE, changed, findings_of, places
from planner.files.load import load_bytes
from planner.files.text import LARGEST_FILE_bytes

LINE_AND_CODE = [
    ("tab as indentation", "  touch: 3.00 m", "\ttouch: 3.00 m", "tab", 0),
    ("tab after the colon", "level: intermediate", "level:\tintermediate", "tab", 0),
    ("no-break space as indentation", "  touch: 3.00 m", "\u00a0 touch: 3.00 m", "tab", 0),
    ("bell character", "name: Nora Weiss", "name: Nora\x07 Weiss", "control-character", 0),
    ("null byte", "name: Nora Weiss", "name: Nora\x00 Weiss", "control-character", 0),
    ("line separator", "name: Nora Weiss", "name: Nora\u2028Weiss", "control-character", 0),
    ("right-to-left override", "name: Nora Weiss", "name: Nora\u202eWeiss", "control-character", 0),
    ("terminal escape", "name: Nora Weiss", r'name: "\e]0;x\a\e[31mRED"', "control-character", 0),
    ("escaped right-to-left override", "name: Nora Weiss", r'name: "Nora \u202eWeiss"', "control-character", 0),
    ("terminal escape in a field's name", "level: intermediate", r'"le\evel": intermediate', "control-character", 0),
    ("anchor", "name: Nora Weiss", "name: &n Nora Weiss", "anchor", 0),
    ("alias", "name: Nora Weiss", "name: *n", "alias", 0),
    ("merge key", "name: Nora Weiss", "<<: {name: Nora}", "merge-key", 0),
    ("type mark", "name: Nora Weiss", "name: !!str Nora Weiss", "tag", 0),
    ("own type mark", "name: Nora Weiss", "name: !python/object:os.system x", "tag", 0),
    ("lone exclamation mark", "name: Nora Weiss", "name: ! Nora", "tag", 0),
    ("second document", "level: intermediate", "level: intermediate\n---", "many-documents", 1),
    ("duplicate field", "level: intermediate", "level: intermediate\nlevel: novice", "duplicate-key", 1),
    ("number as a field", "level: intermediate", "level: intermediate\n7: seven", "key-not-text", 1),
    ("true as a field", "level: intermediate", "level: intermediate\ntrue: yes", "key-not-text", 1),
    ("list as a field", "level: intermediate", "level: intermediate\n? [a, b]\n: c", "key-not-text", 1),
    ("colon inside text", "name: Nora Weiss", "name: Nora: Weiss", "yaml-syntax", 0),
    ("quote never closed", "name: Nora Weiss", 'name: "Nora Weiss', "yaml-syntax", 0),
    ("bracket never closed", "trials: [2.90 m, 2.91 m]", "trials: [2.90 m, 2.91 m", "yaml-syntax", 0),
    ("field without a colon", "level: intermediate", "level intermediate", "yaml-syntax", 0),
    ("at sign", "name: Nora Weiss", "name: @nora", "yaml-syntax", 0),
    ("indentation that fits nothing", "  method: touch", " method: touch", "yaml-syntax", 0),
    ("leading zero", "minutes: 60", "minutes: 060", "odd-number", 0),
    ("underscore in a number", "minutes: 60", "minutes: 6_0", "odd-number", 0),
    ("another base", "minutes: 60", "minutes: 0x3C", "odd-number", 0),
    ("not a number", "training_age_years: 3", "training_age_years: .nan", "not-finite", 0),
    ("infinite", "training_age_years: 3", "training_age_years: -.inf", "not-finite", 0),
    ("overflowing", "training_age_years: 3", "training_age_years: 1e999", "huge-number", 0),
    ("huge integer", "minutes: 60", "minutes: 123456789012345678901234567890", "huge-number", 0),
    ("integer of five thousand digits", "minutes: 60", f"minutes: {'9' * 5000}", "huge-number", 0),
]


def test_the_athlete_used_here_has_no_findings() -> None:
    assert places(ATHLETE) == []


@pytest.mark.parametrize(
    ("old", "new", "code", "below"), [case[1:] for case in LINE_AND_CODE], ids=[c[0] for c in LINE_AND_CODE]
)
def test_refusal_is_told_on_its_line(old: str, new: str, code: str, below: int) -> None:
    text, line = changed(old, new)
    assert places(text) == [(code, line + below)]


@pytest.mark.parametrize("raw", [b"", b"   \n\n", b"# only a comment\n", b"\xef\xbb\xbf"])
def test_empty_file(raw: bytes) -> None:
    assert places(raw) == [("empty-file", 1)]


def test_directive_is_refused_and_does_not_reach_the_next_file() -> None:
    assert places("# a comment\n%YAML 1.1\n---\n" + ATHLETE) == [("directive", 2)]
    text, line = changed("run_up: false", "run_up: no")
    assert places(text) == [("not-true-or-false", line)]  # under version 1.1 it would have been read as false


def test_latin_1_is_refused_at_its_byte() -> None:
    raw = ATHLETE.replace("Nora Weiss", "Nora Weiß").encode("latin-1")
    (finding,) = findings_of(raw)
    assert (finding.code, finding.line, finding.column) == ("not-utf8", 2, len("name: Nora Wei") + 1)
    assert f"offset {raw.index(0xDF)}" in finding.message
    assert "UTF-8" in finding.hint


def test_utf_16_is_named() -> None:
    (finding,) = findings_of(ATHLETE.encode("utf-16"))
    assert (finding.code, finding.line) == ("not-utf8", 1)
    assert "UTF-16" in finding.message


def test_byte_order_mark_and_windows_line_ends_are_accepted() -> None:
    assert places(b"\xef\xbb\xbf" + ATHLETE.encode()) == []
    text, line = changed("level: intermediate", "level: intermediat")
    assert places(text.replace("\n", "\r\n")) == [("not-a-choice", line)]


def test_duplicate_field_names_both_places() -> None:
    text, line = changed("  touch: 3.00 m\n", "  touch: 3.00 m\n  touch: 3.10 m\n")
    (finding,) = findings_of(text)
    assert (finding.code, finding.line, finding.other) == ("duplicate-key", line + 1, f"nora.yaml:{line}")
    assert f"line {line}" in finding.message


@pytest.mark.parametrize("opening", ["[", "{a: "])
def test_depth_is_bounded_and_refused_at_once(opening: str) -> None:
    began = time.process_time()  # of the process: what else the machine does is no matter
    found = places(f"file: {opening * 20_000}")
    assert [code for code, _ in found] == ["too-deep"]
    assert time.process_time() - began < 2.0  # a recursive reader takes minutes, or ends in a traceback


def test_deep_indentation() -> None:
    text = "".join(f"{' ' * depth}a:\n" for depth in range(400))
    assert places(text) == [("too-deep", 33)]


def test_alias_bomb_is_refused_at_its_first_anchor() -> None:
    text = 'file: athlete/1\na: &a ["x", "x"]\nb: &b [*a, *a]\nc: [*b, *b]\n'
    assert places(text) == [("anchor", 2)]


def test_too_large_a_file() -> None:
    assert places(b"# " + b"x" * LARGEST_FILE_bytes) == [("too-large", 0)]


def test_an_odd_number_says_what_to_write() -> None:
    for written, wanted in (("012", "12"), ("1_0", "10"), ("-007.5", "-7.5")):
        text, _ = changed("minutes: 60", f"minutes: {written}")
        (finding,) = findings_of(text)
        assert f"write {wanted}," in finding.hint
        assert finding.message.startswith("minutes: ")


def test_odd_numbers_in_quotes_are_words() -> None:
    text, _ = changed("name: Nora Weiss", 'name: "007"')
    assert places(text) == []


def test_findings_carry_the_line_as_written() -> None:
    text, line = changed("name: Nora Weiss", "name: Nora: Weiss")
    (finding,) = findings_of(text)
    assert finding.source_line == text.splitlines()[line - 1]
    assert finding.path == "nora.yaml"


def test_a_field_written_twice_inside_a_list_entry_and_on_one_line() -> None:
    text, line = changed("{day: mon, minutes: 60}", "{day: mon, minutes: 60, day: tue}")
    assert places(text) == [("duplicate-key", line)]


def test_several_hidden_characters_are_told_at_once() -> None:
    text = ATHLETE.replace("Nora", "No\x01ra").replace("  method: touch", "\tmethod: touch")
    assert [code for code, _ in places(text)] == ["control-character", "tab"]


def test_nothing_is_loaded_when_anything_is_refused() -> None:
    for _, old, new, _, _ in LINE_AND_CODE:
        assert load_bytes(changed(old, new)[0].encode(), "nora.yaml").value is None


@pytest.mark.parametrize(
    ("raw", "name", "said"),
    [
        (b"PK\x03\x04\x14\x00\x06\x00", "sets.xlsx", "a spreadsheet"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "tests.xls", "a spreadsheet"),
        (b"athlete,touch 1\nNora,3.02\n", "tests.csv", "a spreadsheet saved as text"),
        (b"athlete\ttouch 1\nNora\t3.02\n", "tests.TSV", "a spreadsheet saved as text"),
        (b"%PDF-1.7\n", "cards.pdf", "a PDF"),
        (b"\x89PNG\r\n\x1a\n", "nora.yaml", "a picture"),
    ],
)
def test_what_is_no_yaml_says_what_it_is(raw: bytes, name: str, said: str) -> None:
    (found,) = load_bytes(raw, name).findings
    assert found.line == 0 and f"this is {said}" in found.message and ".yaml" in found.hint
    assert ("--from" in found.hint) is ("spreadsheet" in said)


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("nora.yaml~", "ends in ~"),
        ("nora.yaml.bak", "ends in .bak"),
        ("folder/NORA.BAK", "ends in .BAK"),
        ("nora.orig", "ends in .orig"),
        ("#nora.yaml#", "begins with #"),
        ("x/.#nora.yaml", "begins with .#"),
    ],
)
def test_a_backup_copy_says_what_it_is(name: str, told: str) -> None:
    (found,) = load_bytes(ATHLETE.encode(), name).findings
    assert found.code == "backup-copy" and f"its name {told}:" in found.message and ".yaml" in found.hint


@pytest.mark.parametrize("name", ["nora.yaml", "nora.yml", "nora", "nora.txt", "my~folder/nora.yaml", "old.yaml"])
def test_other_names_are_read(name: str) -> None:
    assert load_bytes(ATHLETE.encode(), name).value is not None
