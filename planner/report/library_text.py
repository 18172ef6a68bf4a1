"""The library as a coach reads it: one line a movement, or everything known about one movement."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from planner.domain.movement import Dose, Jump, Movement, Sprint
from planner.domain.movement_library import Library
from planner.domain.prerequisite import parse_requirement
from planner.domain.template import SchemeWeek, Template
from planner.domain.terms import JOINTS, QUALITIES
from planner.estimate.words import Words
from planner.files.sense.reach import Use, use_by
from planner.report.terminal import fit
from planner.units import counted

WIDTH = 24  # columns of a field's name
MOST_SESSIONS = 4  # named for each template; the rest are counted


def list_text(movements: Sequence[Movement], library: Library) -> str:
    """One line a movement under its family's name, and how many there are."""
    if not movements:
        return "no movement in the library fits that\n"
    lines: list[str] = []
    family = ""
    widest = max(len(m.id) for m in movements)
    for m in movements:
        if library.families[m.id] != family:
            family = library.families[m.id]
            lines += ["", family] if lines else [family]
        lines.append(f"  {m.id:<{widest}}  {m.level:<12}  {m.kind:<6}  {_legs(m):<12}  {_best(m)}".rstrip())
    count, all_of_them = len(movements), len(library)
    whole = counted(all_of_them, "movement")
    total = whole if count == all_of_them else f"{count} of {whole}"
    return fit("\n".join([*lines, "", total]) + "\n")


def movement_text(
    movement: Movement,
    library: Library,
    templates: Sequence[Template],
    words: Words = Words(),  # noqa: B008
) -> str:
    """Everything about one movement: its fields, its chain, what refers to it, and how templates use it."""
    m = movement
    lines = [f"{m.name} ({m.id})", f"{library.places.get(m.id, '')}", ""]
    lines += _rows(
        ("also called", ", ".join(m.also) or None),
        ("family", library.families[m.id]),
        ("kind, part", f"{m.kind}, {m.part}"),
        ("patterns", ", ".join(m.patterns) or "none"),
        ("legs", _legs(m) + (f", for {m.take_off} jumpers only" if m.take_off else "")),
        ("level", m.level),
        ("needs", ", ".join(library.equipment.get(e, e) for e in m.equipment) or "nothing"),
        ("runway", words.run(m.runway) if m.runway else None),
        ("asks first for", "; ".join(m.requires) or None),
        ("trains (0-3)", _tags(dict(m.qualities), QUALITIES)),
        ("stresses (0-3)", _tags(dict(m.stress), JOINTS)),
        ("jump", _jump(m.jump, words) if m.jump else None),
        ("sprint", _sprint(m.sprint, words) if m.sprint else None),
        ("hamstring", "long under load (eccentric): days apart from sprints" if m.eccentric_hamstring else None),
        ("heavy hinge", "yes: days apart from sprints" if m.heavy_hinge else None),
        ("dosed", _dose(m.dose)),
    )
    lines += [f"{'cues' if not i else '':<{WIDTH}}{cue}" for i, cue in enumerate(m.cues)]
    lines += [f"{'cautions' if not i else '':<{WIDTH}}{caution}" for i, caution in enumerate(m.cautions)]
    lines += [f"{'source of the tags':<{WIDTH}}{m.source}", ""]
    lines += _chain_lines(m, library)
    leaning = leaning_on(m, library)
    lines += [f"{f'{what}:':<{WIDTH}}{', '.join(ids)}" for what, ids in leaning.items() if ids]
    lines += ["", "In the templates"]
    lines += [f"  {template.id:<{WIDTH - 2}}{_use(m, template)}" for template in templates]
    return fit("\n".join(lines) + "\n")


def movement_json(movement: Movement, library: Library, templates: Sequence[Template]) -> dict[str, Any]:
    """The same as plain data; quantities in m, s, kg."""
    uses = {template.id: use_by(movement, template) for template in templates}
    return {
        **movement.model_dump(mode="json"),
        "family": library.families[movement.id],
        "place": library.places.get(movement.id, ""),
        "chain": [m.id for m in chain(movement, library)],
        **{key.replace(" ", "_"): ids for key, ids in leaning_on(movement, library).items()},
        "templates": [
            {"template": name, "levels": use.levels, "sessions": use.shapes, "weeks": use.weeks}
            if isinstance(use, Use)
            else {"template": name, "why_not": use}
            for name, use in uses.items()
        ],
    }


def list_json(movements: Sequence[Movement], library: Library) -> list[dict[str, Any]]:
    return [{**m.model_dump(mode="json"), "family": library.families[m.id]} for m in movements]


def chain(movement: Movement, library: Library) -> list[Movement]:
    """From the easiest movement that ``easier`` leads to, to the hardest one that ``harder`` leads to."""
    found = [movement]
    while found[0].easier is not None and library[found[0].easier] not in found:
        found.insert(0, library[found[0].easier])
    while found[-1].harder is not None and library[found[-1].harder] not in found:
        found.append(library[found[-1].harder])
    return found


def leaning_on(movement: Movement, library: Library) -> dict[str, list[str]]:
    """Other movements that name this one: as a neighbour (outside its own chain), for their load, as a condition."""
    ids = {m.id for m in chain(movement, library)}
    return {
        "also easier for": [m.id for m in library if m.easier == movement.id and m.id not in ids],
        "also harder for": [m.id for m in library if m.harder == movement.id and m.id not in ids],
        "gives the load of": [m.id for m in library if m.dose.of == movement.id and m.id != movement.id],
        "opens": [m.id for m in library if movement.id in (parse_requirement(text).lift for text in m.requires)],
    }


def _rows(*rows: tuple[str, str | None]) -> list[str]:
    return [f"{name:<{WIDTH}}{text}" for name, text in rows if text is not None]


def _chain_lines(movement: Movement, library: Library) -> list[str]:
    found = chain(movement, library)
    if len(found) == 1:
        return ["No easier or harder movement is named."]
    lines = ["From easier to harder"]
    for m in found:
        mark = "->" if m.id == movement.id else "  "
        lines.append(f"{mark} {m.id:<{WIDTH + 8}}{m.level}")
    return lines


def _use(movement: Movement, template: Template) -> str:
    use = use_by(movement, template)
    if isinstance(use, str):
        return f"never: the template {use}"
    weeks = template.schemes[movement.dose.scheme].weeks
    first, last = weeks[use.weeks[0] - 1], weeks[use.weeks[-1] - 1]
    wave = f"{_week(first)} in week {use.weeks[0]}"
    if len(use.weeks) > 1:
        wave += f" to {_week(last)} in week {use.weeks[-1]}"
    named = ", ".join(use.shapes[:MOST_SESSIONS])
    more = f" and {counted(len(use.shapes) - MOST_SESSIONS, 'more session')}" if len(use.shapes) > MOST_SESSIONS else ""
    return f"{wave}; for {', '.join(use.levels)}; in {named}{more}"


def _week(week: SchemeWeek) -> str:
    sets = f"{week.sets[0]}-{week.sets[1]}" if week.sets[0] != week.sets[1] else str(week.sets[0])
    of = f" × {week.reps}" if week.reps else f" × {week.hold_s} s" if week.hold_s else " sets"
    return f"{sets}{of}{f' at {week.percent:g} %' if week.percent else ''}"


def _legs(m: Movement) -> str:
    return {"both": "both legs", "one": "one leg", "alternate": "alternating"}[m.legs]


def _best(m: Movement) -> str:
    """The qualities it trains most."""
    top = max(m.qualities.values(), default=0)
    return ", ".join(f"{name} {tag}" for name, tag in m.qualities.items() if tag == top and tag) or "no quality"


def _tags(tags: dict[Any, int], order: Sequence[str]) -> str:
    return ", ".join(f"{name} {tags[name]}" for name in order if tags.get(name)) or "none"


def _jump(jump: Jump, words: Words) -> str:
    parts = [jump.direction, f"approach: {jump.approach}", f"tier {jump.tier}"]
    parts.append(f"{jump.contacts_per_rep} contact{'s' if jump.contacts_per_rep > 1 else ''} a rep")
    parts += [f"effort {jump.effort_percent} %"] if jump.effort_percent < 100 else []
    parts += [f"drop {words.box(jump.drop)}"] if jump.drop else []
    parts += [f"height {words.box(jump.height)}"] if jump.height else []
    return ", ".join(parts + (["rebound"] if jump.rebound else []))


def _sprint(sprint: Sprint, words: Words) -> str:
    fly = f" after {words.run(sprint.fly_in)} of run-up" if sprint.fly_in else ""
    return f"{sprint.sort}, {words.run(sprint.distance)}{fly}, {sprint.speed_percent} % of top speed"


def _dose(dose: Dose) -> str:
    load = {
        "percent": f"percent of {dose.of}" + (f" × {dose.ratio:g}" if dose.ratio != 1 else ""),
        "reserve": "a load found by the reps left in reserve",
        "none": "no load",
    }[dose.load]
    body = f", {dose.body_mass_share:.0%} of body mass lifted along" if dose.body_mass_share else ""
    return f"{dose.scheme}: {load}{body}; {dose.set_time:g} s a set, {dose.rest:g} s rest"
