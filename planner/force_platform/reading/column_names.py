"""What the name of a column says: its unit, whether it is a force, along which axis, of which platform."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

from planner.units import UNITS

ColumnKind = Literal["time", "counter", "force", "other", "unknown"]
_IN_BRACKETS = re.compile(r"^(.*?)[\s_,/-]*[\[(]\s*([^\])]+?)\s*[\])]\s*$")
_TRAILING_UNIT = re.compile(r"^(.*\S)(?:[\s_,]+|\s*/\s*)(s|ms|N|kN|lbf)$")
_MEANT = {
    "sec": "s", "secs": "s", "second": "s", "seconds": "s", "msec": "ms", "msecs": "ms", "milliseconds": "ms",
    "n": "N", "newton": "N", "newtons": "N", "kn": "kN", "s": "s", "ms": "ms", "min": "min", "lbf": "lbf",
}  # fmt: skip
_OTHER_UNITS = {"nm", "n.m", "n*m", "n·m", "n-m", "nmm", "n.mm", "mm", "cm", "m", "v", "mv", "deg", "°", "m/s", "m/s2"}
_OTHER_UNITS |= {"w", "%", "hz", "g", "bw", "rad", "-", "volt", "volts"}
_WORDS = re.compile(r"[^\W\d_]?[^\W\d_A-Z]+|[A-Z]+(?![a-z])|\d+")
_TIME = re.compile(r"^(time|t|zeit|temps|tiempo|tempo|abs time|elapsed.*|seconds|timestamp)$", re.IGNORECASE)
_COUNTER = re.compile(r"^(sub ?)?(frame|sample|index|row|no\.?|nr\.?|#|n)s?(\b|$)", re.IGNORECASE)
_OTHER_WORDS = {
    "moment", "torque", "cop", "pressure", "acc", "acceleration", "trigger", "emg", "angle", "position", "speed",
    "velocity", "power", "displacement", "height", "free", "px", "py", "pz", "ax", "ay", "az", "mx", "my", "mz", "tx",
    "ty", "tz", "copx", "copy", "copz",
}  # fmt: skip
_FORCE_WORDS = {"force", "forces", "grf", "vgrf", "load", "newton", "kraft", "fuerza", "forza", "weight"}
_AXIS = re.compile(r"^(?:[lr])?(?:gr)?(f|v|grf|force)?([xyz])(?:[lr])?$")
_JOINED_SIDE = re.compile(r"^(?:([lr])(?:gr)?f[xyz]?|(?:gr)?f[xyz]?([lr]))$")
_SIDES = {"left": "left", "l": "left", "lt": "left", "links": "left", "right": "right", "r": "right", "rt": "right"}
_SIDES |= {"rechts": "right", "1": "1", "2": "2"}
_VERTICAL = re.compile(r"vert|vgrf|^f?senk", re.IGNORECASE)
_TOTAL = re.compile(r"total|sum|combined|both|gesamt", re.IGNORECASE)


@dataclass(frozen=True)
class ColumnName:
    """One column. ``text``: as written; ``name``: without the unit. ``axis``: ``vertical``, x, y, z, or a force named
    by a v before it (``vx``), where laboratories differ on which is up; None where nothing is said."""

    index: int
    text: str
    name: str
    unit: str | None
    kind: ColumnKind
    side: str | None
    axis: str | None

    @property
    def is_total(self) -> bool:
        return bool(_TOTAL.search(self.name))

    @property
    def unread_unit(self) -> str | None:
        """What is in brackets like a unit, but is not one we know."""
        found = _IN_BRACKETS.match(self.text)
        return found.group(2) if found and self.unit is None else None


def is_unit(text: str) -> bool:
    bare = text.strip("[]() ").lower()
    return bare in _MEANT or bare in _OTHER_UNITS


def column_name(index: int, text: str, unit_below: str = "") -> ColumnName:
    """``unit_below``: of a line of units under the names; one in the name itself goes before it."""
    found = _IN_BRACKETS.match(text) or _TRAILING_UNIT.match(text)
    if found and is_unit(found.group(2)):
        name, unit = found.group(1).strip(), found.group(2)
    else:
        name, unit = text, unit_below.strip("[]() ")
    if not unit and text != "n" and is_unit(text):  # a column called n counts
        unit = text
    meant = _MEANT.get(unit.lower())
    words = _words(name)
    axis = _axis(words, name)
    shown = name or text or f"column {index + 1}"
    kind = _kind(name, words, axis, meant, unit)
    return ColumnName(index, text, shown, meant, kind, _side(words), axis)


def _words(name: str) -> list[str]:
    return [word.lower() for word in _WORDS.findall(name)]


def _kind(name: str, words: list[str], axis: str | None, meant: str | None, unit: str) -> ColumnKind:
    if meant in UNITS["time"] or _TIME.match(name):
        return "time"
    if meant in UNITS["force"]:
        return "force"
    if (unit and meant is None) or _OTHER_WORDS & set(words):
        return "other"
    if _COUNTER.match(name):
        return "counter"
    joined = any(_JOINED_SIDE.match(word) for word in words)
    named = _FORCE_WORDS & set(words) or any(re.search("force|grf|fz|newton", word) for word in words)
    return "force" if named or axis is not None or joined else "unknown"


def _axis(words: list[str], name: str) -> str | None:
    if _VERTICAL.search(name):
        return "vertical"
    for word in words:
        found = _AXIS.match(word)
        if found and (found.group(1) or set(words) & (_FORCE_WORDS | {"f"})):
            return ("v" if found.group(1) == "v" else "") + found.group(2)
    return None


def _side(words: list[str]) -> str | None:
    for word in words:
        if word in _SIDES:
            return _SIDES[word]
        found = _JOINED_SIDE.match(word)
        if found:
            return "left" if (found.group(1) or found.group(2)) == "l" else "right"
    return None
