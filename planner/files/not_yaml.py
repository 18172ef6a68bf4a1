"""What a coach may give by mistake for a YAML file: a spreadsheet, a PDF, or the copy that an editor keeps."""

from __future__ import annotations

import re
from pathlib import PurePath

from planner.domain.findings import Finding

# How other files begin: zip (today's spreadsheets), the packed files of older office programs, PDF, pictures.
_SPREADSHEETS = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1")
_BEGINS = {b"%PDF-": "a PDF", b"\x89PNG": "a picture", b"\xff\xd8\xff": "a picture"}
_TABLES = (".csv", ".tsv")
# Endings and beginnings that editors and office programs give to their copies and locks. Common practice, no source.
_COPY = re.compile(r"(?P<end>~|\.(?:bak|backup|old|orig|save|autosave|tmp|swp))$|^(?P<begin>\.#|#|~\$|\.~)", re.I)


def not_yaml(raw: bytes, path: str) -> Finding | None:
    """What the file is, if its name or first bytes show that it is not YAML."""
    if raw.startswith(_SPREADSHEETS):
        return _finding(path, "not-text", "this is a spreadsheet or another packed file, not text", _SHEETS)
    for begin, kind in _BEGINS.items():
        if raw.startswith(begin):
            return _finding(path, "not-text", f"this is {kind}, not text", "name the file that ends in .yaml")
    name = PurePath(path).name
    if name.lower().endswith(_TABLES):
        return _finding(path, "a-sheet", "this is a spreadsheet saved as text", _SHEETS)
    if (copy := _COPY.search(name)) is not None:
        how = f"ends in {copy['end']}" if copy["end"] else f"begins with {copy['begin']}"
        hint = "name the file itself; if this copy is the one you want, save it under a name that ends in .yaml"
        return _finding(path, "backup-copy", f"this is a backup copy, since its name {how}: it may be old", hint)
    return None


_SHEETS = (
    "name the file that ends in .yaml; a squad's tests go in by jumpblock squad read, "
    "an athlete's by jumpblock test ATHLETE --from SHEET, sets by jumpblock log BLOCK --from SHEET"
)


def _finding(path: str, code: str, message: str, hint: str) -> Finding:
    return Finding(path, 0, 0, code, message, hint)
