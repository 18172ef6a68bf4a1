"""The files next to this one, as LibreOffice Calc writes them; the suite reads them and needs no such program.

Made by version 7.4 without a window, by a Python that has the program's package ``uno``, from an empty sheet of ours:
  jumpblock squad sheet -o empty.xlsx
  python3 tests/squads/calc/make.py empty.xlsx
"""

from __future__ import annotations

import importlib
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

HERE = Path(__file__).resolve().parent
WORKBOOK, TEXT = "Calc MS Excel 2007 XML", "Text - txt - csv (StarCalc)"
UTF_8, WINDOWS_1252 = "76", "1"
GERMAN = "1031"
# As typed into the cells: what begins with = is a formula, in the program's own grammar.
ROW = {
    "test date": "2026-03-07", "birth date": "2005-02-03", "sex": "female", "body mass (kg)": "55.5",
    "stature (cm)": "170", "standing reach (cm)": "223", "take-off": "one-leg right", "run-up steps": "7",
    "level": "intermediate", "landing": "holds", "contacts a week": "130", "of these maximal": "10",
    "sprints a week": "5", "sets a week": "30", "target touch (cm)": "285", "touch 1 (cm)": "275",
    "touch 2 (cm)": "=R{row}+1", "touch 3 (cm)": "=MAX(R{row}:S{row})", "ground contact 1 (ms)": "187",
    "ground contact 2 (ms)": "204.5", "back squat load (kg)": "=20+2*12.5", "back squat reps": "4",
    "back squat in reserve": "2",
}  # fmt: skip
NAMES = ("Ida Berg", "Zoë Lund", "O'Hara", "=1+1", "@Bo", "+Cy", "-Di", "'Ed")
WRONG = {
    "touch 1 (cm)": "=1/0", "touch 2 (cm)": "=NA()", "touch 3 (cm)": '=VALUE("x")',
    "back squat load (kg)": "=NOSUCH(3)", "back squat reps": "=SQRT(-1)", "sprints a week": "=#REF!",
    "contacts a week": "=TRUE()", "body mass (kg)": "'=55",
    "run-up steps": "12:30", "ground contact 1 (ms)": "187%", "ground contact 2 (ms)": "'-204", "sex": "'@f",
    "stature (cm)": "'170", "sets a week": "'+30",
}  # fmt: skip


class Calc:
    """The program without a window; ``uno``: the package that speaks to it."""

    def __init__(self, profile: str) -> None:
        self.uno: Any = importlib.import_module("uno")
        words = ["soffice", "--headless", "--norestore", f"-env:UserInstallation=file://{profile}"]
        self.process = subprocess.Popen([*words, "--accept=pipe,name=calc;urp;"])
        here = self.uno.getComponentContext()
        resolver = here.ServiceManager.createInstanceWithContext("com.sun.star.bridge.UnoUrlResolver", here)
        for _ in range(120):
            try:
                there = resolver.resolve("uno:pipe,name=calc;urp;StarOffice.ComponentContext")
                break
            except Exception:  # the program is not up yet
                time.sleep(0.5)
        self.desktop = there.ServiceManager.createInstanceWithContext("com.sun.star.frame.Desktop", there)

    def says(self, **values: Any) -> tuple[Any, ...]:
        found = []
        for name, value in values.items():
            one = self.uno.createUnoStruct("com.sun.star.beans.PropertyValue")
            one.Name, one.Value = name, value
            found.append(one)
        return tuple(found)

    def open(self, path: Path) -> Any:
        return self.desktop.loadComponentFromURL(path.as_uri(), "_blank", 0, self.says(Hidden=True))

    def save(self, document: Any, name: str, options: str = "") -> None:
        of = {"FilterName": TEXT if name.endswith(".csv") else WORKBOOK, "Overwrite": True}
        document.storeToURL((HERE / name).as_uri(), self.says(**of, **({"FilterOptions": options} if options else {})))

    def locale(self, language: str, country: str) -> Any:
        found = self.uno.createUnoStruct("com.sun.star.lang.Locale")
        found.Language, found.Country = language, country
        return found


class Tests:
    """The sheet in an open document, its cells by heading."""

    def __init__(self, document: Any) -> None:
        self._sheet = document.Sheets.getByIndex(0)
        heads = [self._sheet.getCellByPosition(n, 0).String for n in range(60)]
        self.column = {head: n for n, head in enumerate(heads) if head}

    def cell(self, head: str, row: int) -> Any:
        return self._sheet.getCellByPosition(self.column[head], row - 1)

    def type(self, row: int, name: str, **other: str) -> None:
        self.cell("name", row).setString(name)
        for head, text in {**ROW, **other}.items():
            self.cell(head, row).setFormula(text.format(row=row))


def make(calc: Calc, empty: Path) -> None:
    document = calc.open(empty)
    sheet = Tests(document)
    for row, name in enumerate(NAMES, start=3):
        sheet.type(row, name)
    calc.save(document, "filled.xlsx")
    for name, between in (("comma.csv", 44), ("semicolon.csv", 59), ("tab.csv", 9)):
        calc.save(document, name, f"{between},34,{UTF_8}")
    calc.save(document, "windows.csv", f"59,34,{WINDOWS_1252}")
    as_germans_write(calc, document, sheet)
    calc.save(document, "german.csv", f"59,34,{UTF_8},1,,{GERMAN},false,true")
    document.close(True)
    document = calc.open(empty)
    sheet = Tests(document)
    sheet.type(3, "Ida Berg")
    sheet.type(4, "Bo Lund", **WRONG)
    calc.save(document, "wrong.xlsx")
    calc.save(document, "wrong.csv", f"44,34,{UTF_8}")
    document.close(True)


def as_germans_write(calc: Calc, document: Any, sheet: Tests) -> None:
    """Decimal commas, and days before months."""
    german = calc.locale("de", "DE")
    formats = document.NumberFormats
    day, figure = formats.queryKey("TT.MM.JJJJ", german, False), formats.addNew("#.##0,0", german)
    for row in range(3, 3 + len(NAMES)):
        for head, shown in (("body mass (kg)", figure), ("ground contact 2 (ms)", figure), ("test date", day)):
            sheet.cell(head, row).NumberFormat = shown
        sheet.cell("birth date", row).setFormula("2005-02-13")
        sheet.cell("birth date", row).NumberFormat = day


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as profile:
        program = Calc(profile)
        try:
            make(program, Path(sys.argv[1]).resolve())
        finally:
            program.desktop.terminate()
            program.process.wait(30)
