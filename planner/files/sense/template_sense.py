"""What a template says as a whole: every wave as long as the block, every session shape known, every range a range."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from planner.domain.findings import Finding
from planner.domain.template import Template
from planner.domain.terms import LOAD_ROLES
from planner.files.document import Loaded
from planner.files.sense.repeats import repeats
from planner.files.suggest import did_you_mean
from planner.files.tree import Path
from planner.units import counted


def template_sense(loaded: Loaded[Template]) -> list[Finding]:
    template = loaded.require()
    checks = (_weeks, _budgets, _ranges, _shapes, _day_plans, _roles, _pain)
    return [finding for check in checks for finding in check(template, loaded)]


def _weeks(template: Template, loaded: Loaded[Template]) -> Iterator[Finding]:
    wanted = len(template.weeks)
    lists: list[tuple[Path, str, int]] = [
        (("levels", level, "weeks"), f"level {level}", len(plan.weeks)) for level, plan in template.levels.items()
    ]
    lists += [
        (("schemes", name, "weeks"), f"scheme {name}", len(plan.weeks)) for name, plan in template.schemes.items()
    ]
    for path, what, count in lists:
        if count != wanted:
            message = f"{what} has {counted(count, 'week')}, the block has {wanted}"
            hint = f"add {wanted - count}" if count < wanted else f"delete {count - wanted}"
            yield loaded.finding(path, "weeks-differ", message, hint, on_key=True)
    if template.reference_week > wanted:
        message = f"reference_week: {template.reference_week} is after the last week, {wanted}"
        yield loaded.finding(("reference_week",), "reference-week", message, f"write 1 to {wanted}")
    elif template.weeks[template.reference_week - 1].role not in LOAD_ROLES:
        role = template.weeks[template.reference_week - 1].role
        message = f"reference_week: week {template.reference_week} is a {role} week"
        hint = f"name a week of role {' or '.join(LOAD_ROLES)}"
        yield loaded.finding(("reference_week",), "reference-week", message, hint)


def _budgets(template: Template, loaded: Loaded[Template]) -> Iterator[Finding]:
    for level, plan in template.levels.items():
        for index, week in enumerate(plan.weeks):
            path: Path = ("levels", level, "weeks", index)
            if week.medium + week.high > week.contacts:
                message = f"medium {week.medium} and high {week.high} are more than the {week.contacts} contacts in all"
                hint = "medium and high are counted among contacts"
                yield loaded.finding((*path, "contacts"), "tiers-above-contacts", message, hint)
            if week.approach > week.high:
                message = f"approach {week.approach} is more than high {week.high}"
                hint = "maximal approach jumps are counted among high"
                yield loaded.finding((*path, "approach"), "approach-above-high", message, hint)


def _ranges(template: Template, loaded: Loaded[Template]) -> Iterator[Finding]:
    ranges: list[tuple[Path, float, float]] = [
        (("schemes", name, "weeks", index, "sets"), week.sets[0], week.sets[1])
        for name, scheme in template.schemes.items()
        for index, week in enumerate(scheme.weeks)
    ]
    for index, shape in enumerate(template.shapes):
        ranges.append((("shapes", index, "items"), shape.items[0], shape.items[1]))
        for part, entry in enumerate(shape.parts):
            ranges.append((("shapes", index, "parts", part, "items"), entry.items[0], entry.items[1]))
    ranges.append((("deload", "low"), template.deload.low, template.deload.high))
    ranges.append((("taper", "low"), template.taper.low, template.taper.high))
    for path, low, high in ranges:
        if low > high:
            message = f"the range goes from {low:g} down to {high:g}"
            yield loaded.finding(path, "range-reversed", message, "write the smaller number first")


def _shapes(template: Template, loaded: Loaded[Template]) -> Iterator[Finding]:
    for index, first in repeats(shape.id for shape in template.shapes):
        place = loaded.place(("shapes", first, "id"))
        message = f"the session shape '{template.shapes[index].id}' is written twice, first on line {place.line}"
        yield loaded.finding(("shapes", index, "id"), "duplicate-id", message, "rename one", other=str(place))
    for index, shape in enumerate(template.shapes):
        least, most = sum(part.items[0] for part in shape.parts), sum(part.items[1] for part in shape.parts)
        if least > shape.items[1] or most < shape.items[0]:
            stated = f"its items say {shape.items[0]} to {shape.items[1]}"
            message = f"the parts of '{shape.id}' take {least} to {most} movements, {stated}"
            yield loaded.finding(("shapes", index, "items"), "parts-and-items", message, "make the two overlap")


def _day_plans(template: Template, loaded: Loaded[Template]) -> Iterator[Finding]:
    known = [shape.id for shape in template.shapes]
    seen: dict[tuple[int, str], int] = {}
    for index, plan in enumerate(template.day_plans):
        for field, shapes in (("shapes", plan.shapes), ("test_week", plan.test_week)):
            for at, name in enumerate(shapes):
                if name not in known:
                    message = f"'{name}' is not a session shape of this template"
                    path = ("day_plans", index, field, at)
                    yield loaded.finding(path, "unknown-shape", message, did_you_mean(name, known))
        if len(plan.shapes) != plan.days:
            message = f"{counted(plan.days, 'day')} and {counted(len(plan.shapes), 'session shape')}"
            yield loaded.finding(("day_plans", index, "shapes"), "shapes-and-days", message, "write one shape a day")
        served = [(plan.days, level) for level in plan.levels or template.levels]
        twice = next((key for key in served if key in seen), None)
        if twice is not None:
            first = loaded.place(("day_plans", seen[twice], "days"))
            days = f"{counted(plan.days, 'day')} {'is' if plan.days == 1 else 'are'}"
            message = f"{days} planned twice for the level {twice[1]}, first on line {first.line}"
            yield loaded.finding(("day_plans", index, "days"), "days-twice", message, "keep one", other=str(first))
        for key in served:
            seen.setdefault(key, index)


def _roles(template: Template, loaded: Loaded[Template]) -> Iterator[Finding]:
    tables: list[tuple[Path, set[str]]] = [
        (("required_patterns",), set(template.required_patterns)),
        (("floors", "sets"), set(template.floors.sets)),
        (("floors", "contacts"), set(template.floors.contacts)),
    ]
    used = list(dict.fromkeys(week.role for week in template.weeks))
    for path, known in tables:
        for role in used:
            if role not in known:
                message = f"the block has a week of role '{role}', but there is no line for it here"
                yield loaded.finding(path, "role-missing", message, f"add a line {role}:", on_key=True)


def _pain(template: Template, loaded: Loaded[Template]) -> Iterator[Finding]:
    steps = [step.up_to for step in template.pain]
    for index, (before, step) in enumerate(pairwise(steps), start=1):
        if step <= before:
            message = f"up_to {step} does not rise above the {before} before it"
            yield loaded.finding(("pain", index, "up_to"), "pain-order", message, "sort the steps, lowest first")
