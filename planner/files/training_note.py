"""A session as one line of text that survives a messenger.

    jb1 9eb607a2 w3s2 2026-03-17 as-planned / effort 7 / 6: 110 kg x 6, 6, 5; 2 left end 3j8k2mq

Fields are parted by ``/``; ``note`` comes last and may hold any words. The check at the end is over the numbers alone,
so that a corrected word does not void a note, and a changed digit does.
"""

from __future__ import annotations

import datetime
import re
import unicodedata
import zlib
from dataclasses import dataclass
from itertools import pairwise

from planner.domain.findings import Finding
from planner.domain.training_log import WHY_MISSED, WhyMissed, Written
from planner.files.suggest import did_you_mean
from planner.files.values import iso_date
from planner.units import Unreadable

START = "jb1"
_NOTE = re.compile(rf"\b{START}\s.*?\send\s+([0-9a-z]{{7}})\b", re.DOTALL)
_STARTED = re.compile(rf"\b{START}\s")
_NUMBER = re.compile(r"\d+(?:\.\d+)?", re.ASCII)
_DIGITS = "0123456789abcdefghjkmnpqrstvwxyz"  # base 32 without i, l, o, u
_MISREAD = str.maketrans("oil", "011")
_CHECK_LENGTH = 7
# What messengers, keyboards and mail programs put in the place of plain characters.
_PLAIN = str.maketrans(
    {
        **dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2015\u2212\ufe58\ufe63\uff0d", "-"),
        **dict.fromkeys("\u2018\u2019\u201a\u201b\u2032\u00b4", "'"),
        **dict.fromkeys("\u201c\u201d\u201e\u201f\u2033\u00ab\u00bb", '"'),
        **dict.fromkeys("\u00d7\u2715\u2716\u22c5", "x"),
        **{"\u00bd": " 1/2", "\u00bc": " 1/4", "\u00be": " 3/4"},  # NFKC would run them into the number before
        **dict.fromkeys("*_~`", None),
        **dict.fromkeys("\u200b\u200c\u200d\u200e\u200f\u2060\ufeff\u00ad", None),
        **{chr(code): None for code in (*range(0x202A, 0x202F), *range(0x2066, 0x206A))},
    }
)
_QUOTED = re.compile(r"^[\s>]*>", re.MULTILINE)
_FIELDS = ("effort", "minutes", "pain", "mass", "morning", "written", "note")
_DONE = ("as-planned", "changed", "missed")


@dataclass(frozen=True)
class TrainingNote:
    """A note as it was read, its figures still text. ``line``: where it begins, from 1."""

    line: int
    plan: str
    session: str
    date: datetime.date
    missed: WhyMissed | None
    effort: int | None = None
    minutes: int | None = None
    items: tuple[tuple[str, str], ...] = ()
    pain: tuple[str, ...] = ()
    morning: tuple[str, ...] = ()
    mass: str | None = None
    written: Written = "same-day"
    note: str | None = None


def canonical(text: str) -> str:
    """The text as the check reads it: plain characters, small letters, single blanks, marks of quoting gone."""
    plain = unicodedata.normalize("NFKC", text.translate(_PLAIN)).translate(_PLAIN)
    return " ".join(_QUOTED.sub("", plain).casefold().split())


def check_of(body: str) -> str:
    """The seven characters behind ``end``: CRC-32 of the numbers in what is before it, in base 32."""
    value = zlib.crc32(" ".join(_NUMBER.findall(canonical(body))).encode("ascii"))
    return "".join(_DIGITS[value >> 5 * place & 31] for place in reversed(range(_CHECK_LENGTH)))


def read_notes(text: str, path: str) -> tuple[list[TrainingNote], list[Finding]]:
    """Every note in a text, which may be a whole chat, and a finding for each that cannot be read."""
    notes: list[TrainingNote] = []
    found: list[Finding] = []
    for line, chunk in _chunks(text):
        whole = _NOTE.search(canonical(chunk))
        if whole is None:
            message, hint = "a note begins here but has no end", "copy it whole, up to 'end' and the seven characters"
            found.append(Finding(path, line, 1, "note-cut", message, hint))
            continue
        body = whole.group()[: whole.start(1) - whole.start()].rpartition(" end")[0]
        if whole.group(1).translate(_MISREAD) != check_of(body.removeprefix(f"{START} ")):
            message = "a figure of this note was changed on the way: it does not fit the check at its end"
            found.append(Finding(path, line, 1, "note-changed", message, "ask for it again"))
            continue
        try:
            notes.append(_read(body.removeprefix(f"{START} "), line))
        except Unreadable as error:
            found.append(Finding(path, line, 1, "note-form", error.message, error.hint))
    return notes, found


def _chunks(text: str) -> list[tuple[int, str]]:
    """Each start of a note with all text up to the next one, and its line."""
    lines = "\n".join(canonical(line) for line in text.split("\n"))
    starts = [found.start() for found in _STARTED.finditer(lines)]
    return [(lines[:at].count("\n") + 1, lines[at:end]) for at, end in pairwise([*starts, len(lines)])]


def _read(body: str, line: int) -> TrainingNote:
    head, _, rest = body.partition(" / ")
    words = head.split()
    if len(words) < 4:
        raise Unreadable("the note does not begin with block, session, day and as-planned, changed or missed")
    plan, session, written_day, done, *why = words
    day = iso_date(written_day)
    if day is None:
        raise Unreadable(f"'{written_day}' is not a day", "write year-month-day")
    if done not in _DONE:
        raise Unreadable(f"'{done}' does not say how it went", did_you_mean(done, _DONE))
    missed = next((word for word in WHY_MISSED if why == [word]), None)
    if done == "missed" and missed is None:
        raise Unreadable("the note does not say why it was missed", f"use one of: {', '.join(WHY_MISSED)}")
    return TrainingNote(line, plan, session, day, missed if done == "missed" else None, **_fields(rest))  # type: ignore[arg-type]


def _fields(rest: str) -> dict[str, object]:
    said: dict[str, object] = {}
    before, marked, remark = rest.partition("note ")
    if marked and (not before or before.endswith("/ ")):
        said["note"], rest = remark.strip(), before.removesuffix("/ ")
    many: dict[str, list[object]] = {"items": [], "pain": [], "morning": []}
    for field in filter(None, (part.strip() for part in rest.split(" / "))):
        name, _, value = field.partition(" ")
        if name.endswith(":"):
            many["items"].append((name.removesuffix(":"), value))
        elif name in many:
            many[name].append(value)
        elif name in ("effort", "minutes") and value.isdecimal():
            said[name] = int(value)
        elif name == "mass" or (name == "written" and value in ("same-day", "next-day", "later")):
            said[name] = value
        else:
            hint = did_you_mean(name, _FIELDS) or f"use one of: {', '.join(_FIELDS)}, or an item's number with a colon"
            raise Unreadable(f"'{field}' is not a field of a note", hint)
    return {**said, **{name: tuple(values) for name, values in many.items()}}
