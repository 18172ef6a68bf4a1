"""A block against its inputs and every rule: what ``check`` says of it. Needs no solver."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from pathlib import Path

from planner.audit import audit, breach_finding, unknown_movements
from planner.domain.address import Address
from planner.domain.block import Block, Item
from planner.domain.findings import Finding, FindingLevel, UserError, has_errors
from planner.domain.movement_library import Library
from planner.files.digest import is_as_solved
from planner.files.document import Loaded
from planner.files.load import load_athlete, load_block, load_library
from planner.files.locate import Located, shown
from planner.files.render import in_order
from planner.files.suggest import did_you_mean
from planner.files.tree import Path as Keys
from planner.jobs.block_references import follow, is_of_kind
from planner.jobs.changed_athlete import changed
from planner.jobs.printable_texts import unprintable_block
from planner.jobs.sources import FoundFiles, Sources, sources_with
from planner.problem.by_hand import by_hand_of
from planner.problem.model import Problem
from planner.problem.revised import since_of
from planner.rules.registry import rule_by_id, rules_version
from planner.rules.rule import Breach
from planner.units import as_read_by

FROM_BLOCK = "as the block says"
DAYS_A_WEEK = 7
LoadLibrary = Callable[[Path, str], Loaded[Library]]


def check_block(path: Path, display: str, load_library: LoadLibrary) -> list[Finding]:
    """Every finding on a block: its shape, whether it and its inputs are as they were solved, and every rule."""
    loaded = load_block(path, display)
    block = loaded.value
    if block is None:
        return list(loaded.findings)
    found = [*loaded.findings, *_standing(block, loaded), *unprintable_block(loaded)]
    try:
        problem, warnings = problem_of(block, loaded, path.parent, load_library)
    except UserError as error:
        return in_order([*found, *error.findings])
    places = _Places(block)
    breaches = audit(block, problem)
    sums = [breach for breach in breaches if rule_by_id(breach.rule) is None]
    told = [_breach(breach, loaded, places) for breach in breaches if rule_by_id(breach.rule) is not None]
    told += [*_sums(sums, loaded, places), *_odd_names(block, loaded, problem), *_far_off(block, loaded)]
    return in_order([*found, *warnings, *told])


def _sums(breaches: list[Breach], loaded: Loaded[Block], places: _Places) -> Iterator[Finding]:
    """Sums that do not follow an edit by hand: one line, with the command that redoes them."""
    if breaches:
        first, count = breaches[0], len(breaches)
        more = f" ({count - 1} more)" if count > 1 else ""
        finding = _breach(first, loaded, places)
        yield replace(finding, message=f"{first.sentence}{more}", hint=f"jumpblock change {loaded.path} --redo")


def _odd_names(block: Block, loaded: Loaded[Block], problem: Problem) -> Iterator[Finding]:
    """Items whose name is another movement's, as after an edit of one of the two lines."""
    names = {movement.name: movement.id for movement in problem.library}
    for keys, item in _items(block):
        known = problem.library.get(item.movement)
        if known is not None and _in_inches(item.name) != _in_inches(known.name):
            other = names.get(item.name)
            message = f"'{item.name}' is not the name of '{item.movement}', which is '{known.name}'"
            hint = f"write movement: {other}" if other else f"write name: {known.name}"
            level: FindingLevel = "error" if other else "warning"  # else the library may have a new name for it
            yield loaded.finding((*keys, "name"), "other-name", message, hint, level=level)


def _in_inches(name: str) -> str:
    """In one unit, since block and file may be read by others: the block was made before the file said pounds."""
    return as_read_by(name, "in", "lb")


def _far_off(block: Block, loaded: Loaded[Block]) -> Iterator[Finding]:
    for week_at, week in enumerate(block.weeks):
        for at, session in enumerate(week.sessions):
            if not 0 <= (session.date - week.start).days < DAYS_A_WEEK:
                message = f"{session.id} is on {session.date}, and week {week.number} is from {week.start} on"
                hint = "correct the date, or move the session to that week's list"
                keys = ("weeks", week_at, "sessions", at, "date")
                yield loaded.finding(keys, "not-in-its-week", message, hint)


def _items(block: Block) -> Iterator[tuple[Keys, Item]]:
    for week_at, week in enumerate(block.weeks):
        for at, session in enumerate(week.sessions):
            yield from ((("weeks", week_at, "sessions", at, "items", n), item) for n, item in enumerate(session.items))


def block_and_problem(path: Path) -> tuple[Block, Problem, list[Finding]]:
    """A block that keeps together, the problem it answers, and what has changed since or is to be warned of.

    Raises UserError with every finding where the block does not fit its files.
    """
    loaded = load_block(path)
    block = loaded.require()
    return block, *problem_of(block, loaded, path.parent, load_library)


def problem_of(
    block: Block, loaded: Loaded[Block], folder: Path, load_library: LoadLibrary = load_library
) -> tuple[Problem, list[Finding]]:
    """The problem that the block answers, and what its inputs warn of. Raises UserError where it does not fit them."""
    sources, found = sources_of(block, loaded, folder, load_library)
    try:
        start, since, by_hand = block.weeks[0].start, since_of(block), by_hand_of(block)
        problem = sources.estimate_and_problem(start, since, by_hand, block.before)[1]
    except UserError as error:
        raise UserError([*found, *error.findings]) from error
    refuse_misfits(block, loaded, problem, found)
    return problem, found


def refuse_misfits(block: Block, loaded: Loaded[Block], problem: Problem, found: Sequence[Finding] = ()) -> None:
    """Raises UserError where the block cannot be counted against the problem; ``found`` is told before it."""
    misfits = _misfits(block, loaded, problem)
    if misfits:
        raise UserError([*found, *misfits])


def _standing(block: Block, loaded: Loaded[Block]) -> Iterator[Finding]:
    """What a reader must know before trusting the proof: edits by hand, and rules that have changed since."""
    if not is_as_solved(block):
        message = "the block was edited by hand after it was solved, so its proof no longer holds"
        hint = "its rules are checked here; plan again for a proof"
        yield loaded.finding(("plan_sha256",), "edited-block", message, hint, level="warning")
    if block.rules_version != rules_version():
        message = f"the block was made under other rules ({block.made_with})"
        hint = "the current rules are checked here"
        yield loaded.finding(("rules_version",), "other-rules", message, hint, level="note")


def sources_of(
    block: Block,
    loaded: Loaded[Block],
    folder: Path,
    load_library: LoadLibrary = load_library,
    athlete: Path | None = None,
) -> tuple[Sources, list[Finding]]:
    """Follow the block's references, but to the athlete's file where ``athlete`` names one.

    A changed file is a warning on the block's line. Raises UserError for a missing file, on the block's line, and for
    errors in the files.
    """
    written: dict[str, str] = {name: getattr(block, name).path for name in FoundFiles._fields}
    places = {name: follow(path, folder) for name, path in written.items()}
    if athlete is not None:
        load_athlete(athlete).require()
        places["athlete"] = athlete
    missing = [name for name, place in places.items() if not (place.is_dir() if name == "library" else place.is_file())]
    if missing:
        raise UserError([_not_there(loaded, name, written[name]) for name in missing])
    other = [name for name, place in places.items() if name != "library" and not is_of_kind(place, name)]
    if other:
        raise UserError([_not_ours(loaded, name, written[name]) for name in other])
    at = FoundFiles(*(Located(place, _display(written[name], place), FROM_BLOCK) for name, place in places.items()))
    if athlete is not None:
        at = at._replace(athlete=Located(athlete, str(athlete), "as asked for"))
    library = load_library(at.library.path, at.library.display)
    sources = sources_with(load_athlete(at.athlete.path, at.athlete.display, library=library.value), library, at)
    found: list[Finding] = []
    for name in places:  # an athlete's file that was asked for is another one on purpose
        source: Loaded[object] = getattr(sources, name)
        found += [finding for finding in source.findings if finding.level == "error"]
        if source.sha256 != getattr(block, name).sha256 and not (name == "athlete" and athlete is not None):
            found.append(changed(loaded, name, source.path, sources.athlete.value if name == "athlete" else None))
    if has_errors(found):
        raise UserError(found)
    return sources, found


def _not_there(loaded: Loaded[Block], name: str, path: str) -> Finding:
    hint = "fix the path, or plan again; paths are relative to the block's folder"
    return loaded.finding((name, "path"), "cannot-read", f"the {name} is not at {path}", hint)


def _not_ours(loaded: Loaded[Block], name: str, path: str) -> Finding:
    hint = f"name the file whose first line is file: {name}/1"
    return loaded.finding((name, "path"), "wrong-file-kind", f"{path} is not the {name}", hint)


def _display(written: str, path: Path) -> str:
    """Packaged files go by the name they have in the package."""
    return written.partition("/")[2] if written.startswith("(") else shown(path)


def _misfits(block: Block, loaded: Loaded[Block], problem: Problem) -> list[Finding]:
    """What keeps the block from being counted: weeks the template does not have, ids twice, unknown movements."""
    numbers, wanted = [week.number for week in block.weeks], list(problem.weeks)
    if numbers != wanted:
        listed = ", ".join(map(str, numbers))
        message = f"the block's weeks are {listed}; the template '{problem.template.id}' has {len(wanted)}"
        return [loaded.finding(("weeks",), "other-weeks", message, "number them 1, 2, 3 and so on", on_key=True)]
    found: list[Finding] = []
    lines: dict[str, int] = {}
    for week_at, week in enumerate(block.weeks):
        for at, session in enumerate(week.sessions):
            here: Keys = ("weeks", week_at, "sessions", at, "id")
            if session.id in lines:
                message = f"'{session.id}' is the id of two sessions, first on line {lines[session.id]}"
                found.append(loaded.finding(here, "duplicate-id", message, "give one of them another id"))
            lines.setdefault(session.id, loaded.place(here).line)
    places = _Places(block)
    for session_id, movement in unknown_movements(block, problem):
        hint = did_you_mean(movement, problem.library.movements) or "add it to the library"
        message = f"'{movement}' is not in the library"
        found.append(loaded.finding(places.movement(session_id, movement), "unknown-movement", message, hint))
    return found


class _Places:
    """Where weeks, sessions and items are in the block's file, by their addresses."""

    def __init__(self, block: Block) -> None:
        self._weeks: dict[int, Keys] = {}
        self._sessions: dict[str, Keys] = {}
        self._items: list[tuple[Keys, Item]] = []
        for week_at, week in enumerate(block.weeks):
            self._weeks[week.number] = ("weeks", week_at)
            for at, session in enumerate(week.sessions):
                keys: Keys = ("weeks", week_at, "sessions", at)
                self._sessions[session.id] = keys
                self._items += [((*keys, "items", item_at), item) for item_at, item in enumerate(session.items)]

    def address(self, at: Address) -> Keys:
        """The line of the item, session or week at an address; empty where it names none of them."""
        session = self._sessions.get(at.session or "")
        keys = session or self._weeks.get(at.week or 0, ())
        for within, item in self._items:
            if keys and _under(within, keys) and at.movement == item.movement and at.item in (None, item.id):
                return (*within, "name")
        return (*keys, "id" if session else "number") if keys else ()

    def movement(self, session_id: str, movement: str) -> Keys:
        keys = self._sessions.get(session_id, ())
        found = (within for within, item in self._items if _under(within, keys) and item.movement == movement)
        return (*next(found, keys), "movement")


def _under(within: Keys, keys: Keys) -> bool:
    return within[: len(keys)] == keys


def _breach(breach: Breach, loaded: Loaded[Block], places: _Places) -> Finding:
    """A breach as a finding on its line."""
    plain, keys = breach_finding(breach, loaded.path), places.address(breach.at)
    if not keys:
        return plain
    on_line = loaded.finding(keys, plain.code, plain.message, plain.hint, level=plain.level)
    return replace(on_line, at=breach.at)
