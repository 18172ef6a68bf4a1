"""Each session has the shape of one of the template's sessions."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.movement import Movement
from planner.domain.template import Shape, ShapePart, Template
from planner.domain.terms import DAYS, TIERS, Day
from planner.problem.model import Problem
from planner.problem.per_set import contacts
from planner.problem.variable import Variable, in_key, takes_key
from planner.rules.base import NOWHERE, Address, Breach, CountedSession, CountedWeek, Plan, Row, Rule, Term, choices
from planner.rules.wording import between, listed

MOST_ITEMS = 40  # more movements than any session could hold: the slack of a shape that a day does not take

MOST_CONTACTS = 1000  # more landings than any session could hold: the slack of a primer that a day does not take


class SessionShape(Rule):
    id = "session-shape"
    title = "A session keeps its shape"
    says = (
        "Each training day takes one of the week's session shapes, the same all through the block until the test week; "
        "each part of it holds as many movements as the shape says, and no jump above its tier."
    )
    source = "common practice, no source"
    structural = True
    unit = "movements"

    def figures(self, template: Template) -> str:
        shapes = [f"{s.id} {between(*s.items)} ({s.highest_tier})" for s in template.shapes]
        primers = {s.low_contacts_only_up_to for s in template.shapes if s.low_contacts_only_up_to is not None}
        primer = f" A primer takes at most {listed(map(str, sorted(primers)))} contacts." if primers else ""
        return f"Movements in all, and the highest tier of jump: {'; '.join(shapes)}.{primer}"

    def rows(self, problem: Problem) -> Iterator[Row]:
        yield from self._one_shape_a_day(problem)
        for phase in problem.phases:
            for slot in phase.slots:
                if problem.last_week in phase.weeks:
                    yield from self._fixed_shape(problem, phase.id, slot)
                else:
                    yield from self._chosen_shape(problem, phase.id, slot)

    def _one_shape_a_day(self, problem: Problem) -> Iterator[Row]:
        for slot in problem.slots:
            terms = [(1, takes_key(slot.number, shape)) for shape in _shape_ids(problem)]
            yield self.row(Address(slot=slot.number), terms, high=1)
        for routine in problem.routines:
            for shape in _shape_ids(problem):
                wanted = sum(1 for s in problem.shapes if s.id == shape)
                terms = [(1, takes_key(slot, shape)) for slot in routine]
                yield self.row(Address(of=shape, entry=routine[0]), terms, low=wanted, high=wanted)

    def _chosen_shape(self, problem: Problem, phase: str, slot: int) -> Iterator[Row]:
        movements = _open_movements(problem, phase, slot)
        shapes = {shape.id: shape for shape in problem.shapes}
        for movement in movements:
            homes = [(-1, takes_key(slot, s.id)) for s in shapes.values() if home(s, movement)]
            yield self.row(_at(phase, slot, movement.id), [(1, in_key(phase, slot, movement.id)), *homes], high=0)
        for shape in shapes.values():
            takes = takes_key(slot, shape.id)
            for index, part in enumerate(shape.parts):
                inside = [(1, in_key(phase, slot, m.id)) for m in movements if home(shape, m) is part]
                yield from self._between(_part(phase, slot, shape, index), inside, takes, *part.items)
            everything = [(1, in_key(phase, slot, m.id)) for m in movements]
            yield from self._between(_part(phase, slot, shape), everything, takes, *shape.items)
            yield from self._primer(problem, phase, slot, shape, (MOST_CONTACTS, takes))

    def _primer(self, problem: Problem, phase: str, slot: int, shape: Shape, slack: Term | None) -> Iterator[Row]:
        """The contacts of a primer, week by week; ``slack`` frees a day that does not take the shape."""
        most = shape.low_contacts_only_up_to
        if most is None:
            return
        for week in next(p.weeks for p in problem.phases if p.id == phase):
            at = Address(week=week, slot=slot, of=f"contacts of {shape.id}")
            terms = problem.session_terms(week, slot, contacts)
            if slack is None:
                yield self.row(at, terms, high=most)
            else:
                free = (slack[0] - most, slack[1])
                yield self.row(at, [*terms, free], high=slack[0])

    def _between(self, at: Address, inside: list[Term], takes: Variable, least: int, most: int) -> Iterator[Row]:
        """least <= sum <= most, asked only when the day takes the shape."""
        if least:
            yield self.row(at, [*inside, (-least, takes)], low=0)
        if inside:
            yield self.row(at, [*inside, (MOST_ITEMS - most, takes)], high=MOST_ITEMS)

    def _fixed_shape(self, problem: Problem, phase: str, slot: int) -> Iterator[Row]:
        shape = problem.test_week_shapes.get(slot)
        movements = _open_movements(problem, phase, slot)
        if shape is None:
            for m in movements:
                yield self.row(_at(phase, slot, m.id), [(1, in_key(phase, slot, m.id))], high=0)
            return
        for m in movements:
            if home(shape, m) is None:
                yield self.row(_at(phase, slot, m.id), [(1, in_key(phase, slot, m.id))], high=0)
        for index, part in enumerate(shape.parts):
            inside = [(1, in_key(phase, slot, m.id)) for m in movements if home(shape, m) is part]
            yield self.row(_part(phase, slot, shape, index), inside, low=part.items[0], high=part.items[1])
        everything = [(1, in_key(phase, slot, m.id)) for m in movements]
        yield self.row(_part(phase, slot, shape), everything, low=shape.items[0], high=shape.items[1])
        yield from self._primer(problem, phase, slot, shape, None)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        yield from self._audit_days(plan)
        yield from self._audit_test_week(plan)
        for phase in plan.problem.phases:
            for sessions in _by_day(plan, phase.weeks):
                yield from self._audit_day(plan.problem, sessions)

    def _audit_days(self, plan: Plan) -> Iterator[Breach]:
        """Before the test week a weekday keeps its shape, and each shape has the days that the template gives it."""
        by_routine: dict[tuple[int, ...], list[CountedWeek]] = {}
        for week in plan.weeks:
            if week.number != plan.problem.last_week:
                by_routine.setdefault(plan.problem.slots_of(week.number), []).append(week)
        for weeks in by_routine.values():
            yield from self._audit_routine(plan, weeks)

    def _audit_routine(self, plan: Plan, weeks: list[CountedWeek]) -> Iterator[Breach]:
        taken: dict[Day, str] = {}
        for week in weeks:
            for session in week.sessions:
                day, focus = DAYS[session.date.weekday()], session.session.focus
                if taken.setdefault(day, focus) != focus:
                    sentence = f"{session.where} has the shape '{focus}'; {day} has '{taken[day]}' through the block"
                    yield self.breach(session.at, sentence, 1)
        for shape in _shape_ids(plan.problem):
            wanted = sum(1 for s in plan.problem.shapes if s.id == shape)
            days = sum(1 for focus in taken.values() if focus == shape)
            if days != wanted:
                sentence = f"the shape '{shape}' stands on {days} days of the week; the template gives it {wanted}"
                yield self.breach(NOWHERE, sentence, abs(days - wanted))

    def _audit_test_week(self, plan: Plan) -> Iterator[Breach]:
        number = plan.problem.last_week
        held = {session.date: session.session.focus for session in plan.week(number).sessions if not session.is_test}
        for slot, shape in plan.problem.test_week_shapes.items():
            focus = held.get(plan.problem.dates[number, slot])
            if focus != shape.id and (focus is not None or shape.items[0]):
                date = plan.problem.dates[number, slot]
                has = f"has the shape '{focus}'" if focus else "has no session"
                yield self.breach(
                    Address(week=number), f"{date:%a %d %b} {has}; the test week puts '{shape.id}' there", 1
                )

    def _audit_day(self, problem: Problem, sessions: list[CountedSession]) -> Iterator[Breach]:
        """One day of the week through a phase: what it holds in any week counts, as waves may leave a week out."""
        first = sessions[0]
        where, focus = first.where, first.session.focus
        shape = next((shape for shape in problem.template.shapes if shape.id == focus), None)
        if shape is None:
            yield self.breach(first.at, f"{where} has no shape '{focus}'", 1)
            return
        held = {item.movement.id: item for session in sessions for item in session.items}
        parts = [home(shape, item.movement) for item in held.values()]
        for item, part in zip(held.values(), parts, strict=True):
            if part is None:
                yield self.breach(first.at_item(item), f"{item.name} does not belong in '{shape.name}' ({where})", 1)
        yield from self._outside(first, shape, "in all", len(held), *shape.items)
        for part in shape.parts:
            count = sum(1 for other in parts if other is part)
            yield from self._outside(first, shape, f"in {part.part}", count, *part.items)
        limit = shape.low_contacts_only_up_to
        for session in sessions if limit is not None else ():
            if limit is not None and session.contacts > limit:
                sentence = f"{session.where} has {session.contacts} contacts; a primer takes at most {limit}"
                yield self.breach(session.at, sentence, session.contacts - limit)

    def _outside(
        self, session: CountedSession, shape: Shape, what: str, count: int, least: int, most: int
    ) -> Iterator[Breach]:
        if not least <= count <= most:
            sentence = f"{session.where} has {count} movements {what}; '{shape.name}' takes {least} to {most}"
            yield self.breach(session.at, sentence, max(least - count, count - most))


def _by_day(plan: Plan, weeks: tuple[int, ...]) -> list[list[CountedSession]]:
    """The sessions of these weeks by day of the week, the closing test left out."""
    found: dict[int, list[CountedSession]] = {}
    for number in weeks:
        for session in plan.week(number).sessions:
            if not session.is_test:
                found.setdefault(session.date.weekday(), []).append(session)
    return list(found.values())


def home(shape: Shape, movement: Movement) -> ShapePart | None:
    """The part of the shape that takes the movement, if any: its part and pattern fit, its tier is not above."""
    if movement.jump is not None and TIERS.index(movement.jump.tier) > TIERS.index(shape.highest_tier):
        return None
    for part in shape.parts:
        if part.part == movement.part and (not part.patterns or set(part.patterns) & set(movement.patterns)):
            return part
    return None


def _at(phase: str, slot: int, movement: str) -> Address:
    return Address(phase=phase, slot=slot, movement=movement)


def _part(phase: str, slot: int, shape: Shape, part: int | None = None) -> Address:
    return Address(phase=phase, slot=slot, of=shape.id, entry=part)


def _shape_ids(problem: Problem) -> list[str]:
    return list(dict.fromkeys(shape.id for shape in problem.shapes))


def _open_movements(problem: Problem, phase: str, slot: int) -> list[Movement]:
    cached = problem.memo.get("movements of a day")
    found: dict[tuple[str, int], list[Movement]] = cached if isinstance(cached, dict) else {}
    if cached is None:
        for name, day, movement in choices(problem):
            found.setdefault((name, day), []).append(problem.library[movement])
        problem.memo["movements of a day"] = found
    return found.get((phase, slot), [])
