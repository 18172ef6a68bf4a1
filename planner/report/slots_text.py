"""The start times of a squad in lines, by day."""

from __future__ import annotations

import shlex
from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from planner.report.terminal import table, wrap

_SAYS = {
    "optimal": "Proved: no starts keep wishes and groups better.",
    "feasible": "Nothing is over. Not proved the best: they cost {cost}; the least is {bound} or more.",
    "unknown": "The search ended without starts and without a proof that there are none; try fewer athletes a day.",
    "impossible": "No starts hold, in no order of the items that the cards allow:",
}
_HELP = "Open longer, add to what is over, or move a session: jumpblock change BLOCK SESSION --move DAY."


def slots_text(days: Sequence[Mapping[str, Any]]) -> str:
    return "\n".join(_day(day) for day in days)


def _day(day: Mapping[str, Any]) -> str:
    on = date.fromisoformat(day["date"])
    lines = [f"{on:%a} {on.day} {on:%b %Y}"]
    if day["starts"]:
        rows = [["start", "end", "athlete", "hall", "stations"], *[_row(start) for start in day["starts"]]]
        lines.append(table(rows, left=True))
    lines.append(wrap(_SAYS[day["status"]].format(cost=day["cost"], bound=day["bound"])))
    lines += [wrap(over, "  ") for over in day["over"]]
    lines += _without(day["without"]) if day["without"] else [wrap(_HELP)] if day["over"] else []
    return "".join(f"{line}\n" for line in lines)


def _without(without: Mapping[str, Any]) -> list[str]:
    """Who is left out where the others have starts, and the change that was found for each."""
    names = [*(one["name"] for one in without["athletes"]), *without["untried"]]
    fewest = " No fewer can be left out." if without["proved"] else ""
    lines = [
        wrap(f"All others have starts without {', '.join(names)}.{fewest} Or open longer, or add to what is over.")
    ]
    for one in without["athletes"]:
        if not one["change"]:
            nothing = "no other movement or day of the week was found that keeps every hard rule and has room"
            lines.append(wrap(f"{one['name']}: {nothing}", "  "))
            continue
        when = f"{date.fromisoformat(one['date']):%a} {one['start']} {one['hall']}"
        command = shlex.join(["jumpblock", "change", one["block"], one["session"], *one["change"].split()])
        lines += [wrap(f"{one['name']} can start {when}, and no hard rule breaks, after:", "  "), f"    {command}"]
        lines += [wrap(f"not as wished then: {line}", "    ") for line in one["misses"]]
    return lines


def _row(start: Mapping[str, Any]) -> list[str]:
    stations: dict[str, str] = {}
    for item in start["items"]:
        if item["station"]:
            stations.setdefault(item["station"], item["from"])
    said = ", ".join(f"{name} {time}" for name, time in stations.items()) or "floor"
    other = "" if start["as_on_the_card"] else " (other order than on the card)"
    return [start["start"], start["end"], start["name"], start["hall"], f"{said}{other}"]
