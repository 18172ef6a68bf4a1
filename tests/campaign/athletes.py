"""Drawn athletes through the command: blocks held to an auditor of its own, and each refusal's change tried as typed.

Every third athlete is harsh: a coach's athlete with a few lines that leave little room. The search ends with the first
block that keeps every hard rule: what plan then betters, weekly ranges and a coach's preferences, is not audited here
and takes most of the time. With --whole it is plan's own search.

Run: python -m tests.campaign.athletes --seeds 0:20 [--kept FILE] [--whole]
"""

from __future__ import annotations

import argparse
import contextlib
import copy
import json
import random
import re
import tempfile
from collections import Counter
from collections.abc import Iterator
from dataclasses import asdict, dataclass, field, replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from planner.domain.movement_library import Library
from planner.domain.terms import DAYS
from planner.files.load import load_library
from planner.jobs import sources
from planner.solve import bands, budgets, stages
from tests.benchmarks.coach_draws import Lines, drawn
from tests.campaign.own_audit import own_audit
from tests.campaign.stage import Said, jumpblock
from tests.campaign.table import as_table
from tests.coach import block_read
from tests.coach.block_read import read_block
from tests.independence.drawn import ROOT

HARSH_EVERY = 3
ROW = ("tue", "wed", "thu", "fri")
SORE = ("achilles-ankle", "patellar-knee", "hip-groin", "hamstring", "low-back")
CHANGE = re.compile(r"(?:the cheapest change|one change that would do): (.*)")


@dataclass
class Outcome:
    """``kind``: block, refused (by the input), no-block, budget or broken; ``change``: what came of the change told."""

    seed: int
    about: str
    kind: str
    change: str = ""  # holds, fails, of the template, none told
    faults: list[str] = field(default_factory=list)


def harsh(athlete: Lines, seed: int) -> tuple[Lines, str]:
    """One to three lines of the file that leave little room, with their names."""
    dice, new = random.Random(f"harsh {seed}"), copy.deepcopy(athlete)
    days, gym = new["training"]["days"], new["equipment"]
    movements = sorted(_library().movements)
    ways: dict[str, Any] = {
        "short days": lambda: [day.update(minutes=dice.choice([20, 25, 30, 35, 40, 45])) for day in days],
        "one short day": lambda: dice.choice(days).update(minutes=dice.choice([15, 20, 30])),
        "days in a row": lambda: [day.update(day=name) for day, name in zip(days, ROW, strict=False)],
        "no runway": lambda: gym.update(runway=dice.choice(["2 m", "5 m", "8 m"])),
        "few things": lambda: gym.update(items=dice.sample(gym.get("items", []), k=min(3, len(gym.get("items", []))))),
        "many bans": lambda: new.update(bans=dice.sample(movements, k=dice.choice([3, 30, 80]))),
        "pins": lambda: new.update(pins=[{"movement": one} for one in dice.sample(movements, k=2)]),
        "a match a day later": lambda: new.update(
            matches=[{"day": _after(day["day"]), "minutes": 75, "hardness": "hard", "contacts": 60} for day in days]
        ),
        "days away": lambda: new["training"].update(away=[f"2025-09-{dice.randint(8, 30):02d}" for _ in range(6)]),
        "pain": lambda: new.update(
            joints=[{"joint": dice.choice(SORE), "side": "left", "pain": dice.choice([3, 4, 5])}]
        ),
        "hard practices": lambda: new.update(
            practices=[
                {"day": one, "minutes": 90, "hardness": "hard", "contacts": 100}
                for one in DAYS
                if one not in {day["day"] for day in days}
            ]
        ),
    }
    names = dice.sample(sorted(ways), k=dice.choice([1, 1, 2, 3]))
    for name in names:
        ways[name]()
    return new, ", ".join(names)


def _after(day: str) -> str:
    return DAYS[(DAYS.index(day) + 1) % len(DAYS)]


@contextlib.contextmanager
def quickly() -> Iterator[None]:
    """The shipped library read once, and the first block taken as it is."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(sources, "load_library", cache(load_library))
        patch.setattr(block_read, "load_library", cache(load_library))
        whole = bands._whole_library
        patch.setattr(bands, "_whole_library", lambda search, problem, start: start or whole(search, problem, start))
        patch.setattr(bands, "_close_in", lambda search, problem, start, **_: start)
        patch.setattr(bands, "improved_in_pieces", lambda problem, built, values, *_: (values, None, 0.0))
        patch.setattr(budgets, "QUICKEST_SHARE", budgets.FIRST_SHARE)
        patch.setattr(budgets, "BELOW_SHARE", budgets.FIRST_SHARE)
        patch.setattr(stages, "prefer", lambda problem, values, *_: (values, (), 0.0))
        yield


def plan(athlete: Lines, template: str, folder: Path) -> Said:
    (folder / "athlete.yaml").write_text(json.dumps({"file": "athlete/1", **athlete}, ensure_ascii=False), "utf-8")
    return jumpblock("plan", folder / "athlete.yaml", "--template", template, "-o", folder / "block.yaml")


def outcome(seed: int, folder: Path) -> Outcome:
    one = drawn(seed)
    if seed % HARSH_EVERY == 0:
        lines, twists = harsh(one.athlete, seed)
        one = replace(one, athlete=lines, about=f"{one.about}; {twists}")
    said = plan(one.athlete, one.template, folder)
    found = Outcome(seed, one.about, _kind(said))
    if found.kind == "block":
        read = read_block(folder / "block.yaml")
        found.faults = own_audit(read)
    if found.kind == "broken":
        found.faults = [said.err.strip()[-200:]]
    if found.kind in ("no-block", "budget"):
        found.change, told = tried(said.err, one.athlete, one.template, folder)
        found.faults = [f"the change fails: {told}"] if found.change == "fails" else []
    return found


def _kind(said: Said) -> str:
    if said.code == 0:
        return "block"
    if said.code != 1:
        return "broken"
    return next((kind for kind in ("no-block", "budget") if f"[{kind}" in said.err), "refused")


def tried(told: str, athlete: Lines, template: str, folder: Path) -> tuple[str, str]:
    """The change that a refusal tells, made in the athlete's file and planned again; each alternative by itself."""
    line = CHANGE.search(told)
    if line is None:
        return "none told", ""
    for words in line[1].split("; or "):
        changed = as_typed(words, athlete)
        if changed is None:
            return "of the template", words
        if plan(changed, template, folder).code:
            return "fails", words
    return "holds", line[1]


def as_typed(words: str, athlete: Lines) -> Lines | None:
    """The athlete's file with the change that these words ask for; None where they ask for another template."""
    new = copy.deepcopy(athlete)
    for part in re.split(r"; (?:and )?", words):
        if not _take_in(part, new):
            return None
    return new


def _take_in(words: str, new: dict[str, Any]) -> bool:
    days = {day["day"]: day for day in new["training"]["days"]}
    gym = new.setdefault("equipment", {})
    if "more minute" in words:
        for minutes, name in re.findall(r"(\d+)(?: more minutes?)? on (\w+day)", words):
            days[name[:3].lower()]["minutes"] += int(minutes)
    elif moved := re.match(r"train on (\w+day) instead of (\w+day)", words):
        days[moved[2][:3].lower()]["day"] = moved[1][:3].lower()
    elif words.startswith("train on "):
        dates = set(re.findall(r"\d{4}-\d\d-\d\d", words))
        new["training"]["away"] = [date for date in new["training"]["away"] if str(date) not in dates]
    elif runway := re.match(r"have ([\d.]+) m of runway", words):
        gym["runway"] = f"{runway[1]} m"
    elif bought := re.match(r"have (.*) in the gym", words):
        gym["items"] = [*gym.get("items", []), *re.split(r", | and ", bought[1])]
    elif words.startswith("lift the ban on "):
        new["bans"] = [ban for ban in new["bans"] if _name(ban) not in words]
    elif words.startswith("remove the pin of "):
        new["pins"] = [pin for pin in new["pins"] if _name(pin["movement"]) not in words]
    elif left_out := re.match(r"leave out the (match|practice) on (\S+)", words):
        field = "matches" if left_out[1] == "match" else "practices"
        new[field].remove(_on(left_out[2], new[field]))
    elif words == "leave out all practices":
        new["practices"] = []
    elif words == "make every practice half as long":
        new["practices"] = [one | {"minutes": one["minutes"] // 2} for one in new["practices"]]
    elif eased := re.match(r"make the practice on (\S+) a medium one", words):
        hard = [one for one in new["practices"] if one.get("hardness") == "hard"]
        _on(eased[1], hard)["hardness"] = "medium"
    elif words.startswith("a coach's allowance for "):
        allowed = [name for name in _library().movements if _name(name) in words]
        lines = [{"movement": name, "reason": "seen", "date": "2025-09-05"} for name in allowed]
        new["allow"] = [*new.get("allow", []), *lines]
        return bool(lines)
    else:
        return False
    return True


def _on(when: str, lines: list[dict[str, Any]]) -> dict[str, Any]:
    """The first of these practices or matches on ``Tuesdays`` or on a date."""
    return next(one for one in lines if str(one.get("date")) == when or one.get("day") == when[:3].lower())


def _name(movement: str) -> str:
    return _library()[movement].name


@cache
def _library() -> Library:
    return load_library(ROOT / "exercise_library").require()


def run(seeds: range, folder: Path, kept: Path | None = None) -> list[Outcome]:
    """An outcome for each seed; those in the file ``kept`` are taken from it, the others added to it."""
    lines = kept.read_text("utf-8").splitlines() if kept is not None and kept.exists() else []
    done = {one.seed: one for one in (Outcome(**json.loads(line)) for line in lines)}
    for seed in seeds:
        if seed in done:
            continue
        done[seed] = outcome(seed, folder)
        if kept is not None:
            with kept.open("a", encoding="utf-8") as file:
                file.write(json.dumps(asdict(done[seed])) + "\n")
    return [done[seed] for seed in seeds]


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seeds", default="0:20", help="first:last, the last left out")
    parser.add_argument("--kept", type=Path)
    parser.add_argument("--whole", action="store_true", help="plan's own search: ten times as long")
    given = parser.parse_args()
    how = contextlib.nullcontext() if given.whole else quickly()
    with tempfile.TemporaryDirectory() as where, how:
        found = run(range(*map(int, given.seeds.split(":"))), Path(where), given.kept)
    counts = {
        "athletes": Counter(one.kind for one in found),
        "changes": Counter(one.change for one in found if one.change),
    }
    columns = ("block", "no-block", "refused", "budget", "broken", "holds", "fails", "of the template", "none told")
    faults = [f"seed {one.seed} ({one.about}): {fault}" for one in found for fault in one.faults]
    print(as_table(f"drawn athletes, seeds {given.seeds}", counts, columns, faults))


if __name__ == "__main__":
    main()
