"""What ``log`` asks on a terminal, in the order and words of the card. What was answered is kept at every step."""

from __future__ import annotations

import datetime
from collections.abc import Callable
from dataclasses import dataclass, field

from planner.domain.block import AthleteLine, Item, Session
from planner.domain.card_layout import CardLayout
from planner.domain.terms import side_and_joint
from planner.domain.training_log import WHY_MISSED, LoggedItem, LoggedPain, LoggedSession
from planner.files.typed_figures import is_bare
from planner.files.typed_sets import TOUCHES, item_text, pain_text, read_pain
from planner.jobs.log_block import OpenLog, Told, entry_of, item_named, loads_not_told, read_item_of, with_morning
from planner.jobs.question import Ask, Check, a_day, one_of
from planner.past.done import differs
from planner.prescription.item_words import prescribe
from planner.prescription.session_words import dated, title_of

Say = Callable[[str], None]
AS_PLANNED, ALL, MISSED, DATE, NOTHING = "as planned", "all", "missed", "date", "-"


@dataclass
class Dialogue:
    """Asks for one session. ``entry`` is what was answered so far; a new one is unfinished until the last answer."""

    opened: OpenLog
    session: Session
    layout: CardLayout
    ask: Ask
    say: Say
    today: datetime.date
    entry: LoggedSession = field(init=False)

    def __post_init__(self) -> None:
        before = self.opened.file.log.entry(self.session.id)
        if before is None or before.done == "missed":
            before = entry_of(self.session, Told(), self.opened)
            before = before.model_copy(update={"done": "unfinished"})
        self.entry = self._began = before

    @property
    def has_answers(self) -> bool:
        return self.entry != self._began

    def finished(self) -> LoggedSession:
        """Ask for all of it, in the card's order. Raises what ``ask`` raises where it is interrupted."""
        athlete = self.opened.block.for_athlete
        self.say(f"{self.session.id}  {dated(self.session, athlete, self.layout)}  {title_of(self.session)}")
        for number, item in enumerate(self.session.items, start=1):
            self.say(f"  {number}  {self._in_words(item)}")
        answer = self._how_it_went()
        if answer in WHY_MISSED:
            told = Told(missed=answer)
            return entry_of(self.session, told, self.opened)
        numbers = _numbers(answer, self.session)
        named = {self.session.items[number - 1].id for number in numbers}
        self._put(items=tuple(one for one in self.entry.items if one.item in named))
        for number in numbers:
            self._ask_item(number)
        for number in loads_not_told(self.session, self.entry, self.layout):
            self._ask_load(number)
        words = self.layout.words
        self._put(effort=int(self.ask(words.session_effort, _known(self.entry.effort), _within(0, 10))))
        planned = _known(self.entry.minutes) or str(self.session.minutes)
        self._put(minutes=int(self.ask(words.minutes_taken, planned, _within(0, 600))))
        self._ask_pain(f"{words.pain_before} · {words.where}")
        self._ask_when_written()
        logged = {one.item: one for one in self.entry.items}
        changed = any(differs(item, logged[item.id]) for item in self.session.items if item.id in logged)
        return self.entry.model_copy(update={"done": "changed" if changed else "as-planned"})

    def with_mornings(self, entry: LoggedSession) -> LoggedSession:
        """The session before with the next morning of each joint that it told of and of which nothing is known yet."""
        for pain in entry.pain:
            if pain.next_morning is None:
                where = side_and_joint(pain.side, pain.joint)
                question = f"{self.layout.words.pain_next_morning} · {where}, after {entry.session} ({entry.date})"
                answer = self.ask(question, NOTHING, _or_nothing(_within(0, 10)))
                if answer != NOTHING:
                    entry = with_morning(entry, pain.model_copy(update={"next_morning": int(answer)}))
        return entry

    def _how_it_went(self) -> str:
        question = "Enter: as planned; 3 6: only these differed or were measured; all; missed; date"
        known = [str(at) for at, item in enumerate(self.session.items, 1) if item.id in self._logged()]
        while True:
            answer = self.ask(question, " ".join(known) or AS_PLANNED, self._how)
            if answer == DATE:
                day = self.ask("date", str(self.entry.date), a_day)
                self._put(date=datetime.date.fromisoformat(day))
            elif answer == MISSED:
                return self.ask(f"why ({', '.join(WHY_MISSED)})", "", one_of(WHY_MISSED))
            else:
                return answer

    def _how(self, answer: str) -> str:
        if answer in (AS_PLANNED, ALL, MISSED, DATE):
            return answer
        for word in answer.replace(",", " ").split():
            item_named(word, self.session)
        return answer

    def _ask_item(self, number: int) -> None:
        item = self.session.items[number - 1]
        before = self._logged().get(item.id)
        line = self.opened.block.for_athlete
        unit = line.mass_unit
        planned = _again(before, item, line) if before else as_typed(item, unit)
        read: dict[str, LoggedItem] = {}

        def check(answer: str) -> str:
            read["item"] = read_item_of(answer, item, self.opened, unit)
            return answer

        hint = f"load in {unit}" if item.implement else "sets and reps"
        if item.implement == "pair-of-dumbbells":
            hint += ", both hands together"
        if item.part in ("approach-jump", "test"):
            hint = f"touches such as {TOUCHES[line.length_unit]}"
        answer = self.ask(f"{number}  {item.name} ({hint})", planned, check)
        if answer != planned or before is not None:
            self._put_item(read["item"])

    def _ask_load(self, number: int) -> None:
        """Of an item done as planned whose load the card leaves to be found: the next cards go by it."""
        item = self.session.items[number - 1]
        unit = self.opened.block.for_athlete.mass_unit
        before = self._logged().get(item.id)
        read: dict[str, LoggedItem] = {}

        def check(answer: str) -> str:
            told = read_item_of(f"{answer} {unit}" if is_bare(answer) else answer, item, self.opened, unit)
            read["item"] = (
                told if before is None else before.model_copy(update={"load": told.load, "loads": told.loads})
            )
            return answer

        hands = ", both hands together" if item.implement == "pair-of-dumbbells" else ""
        question = f"{number}  {item.name}: the load found, in {unit}{hands} (-: not known)"
        if self.ask(question, NOTHING, _or_nothing(check)) != NOTHING:
            self._put_item(read["item"])

    def _put_item(self, told: LoggedItem) -> None:
        others = [one for one in self.entry.items if one.item != told.item]
        ids = [one.id for one in self.session.items]
        self._put(items=tuple(sorted([*others, told], key=lambda one: ids.index(one.item))))

    def _ask_pain(self, question: str) -> None:
        """One joint after the other, until Enter."""
        known = list(self.entry.pain)
        asked: list[LoggedPain] = []
        while True:
            usual = pain_text(known[len(asked)]) if len(asked) < len(known) else NOTHING
            answer = self.ask(f"{question} (left knee 1 3: before and worst; -: no more)", usual, _or_nothing(_pain))
            if answer == NOTHING:
                break
            asked.append(read_pain(answer))
            self._put(pain=(*asked, *known[len(asked) :]))
        self._put(pain=tuple(asked))

    def _ask_when_written(self) -> None:
        """Effort from memory is worth less: asked only where the day has gone by."""
        days = (self.today - (self.entry.date or self.session.date)).days
        if days <= 0:
            return
        usual = "next-day" if days == 1 else "later"
        self.say(f"Today is {self.today}.")
        question = f"effort and minutes written down on the same day? (yes; Enter: {usual})"
        answer = self.ask(question, usual, one_of(("yes", usual)))
        self._put(written="same-day" if answer == "yes" else usual)

    def _logged(self) -> dict[str, LoggedItem]:
        return {one.item: one for one in self.entry.items}

    def _put(self, **values: object) -> None:
        self.entry = self.entry.model_copy(update=values)

    def _in_words(self, item: Item) -> str:
        if not item.sets:
            return f"{item.name}: {item.note or '0 sets'}"
        said = prescribe(item, self.opened.block.for_athlete, self.layout)
        return "  ".join(filter(None, (item.name, said.dose, said.side, said.load or said.load_to_find, said.effort)))


def as_typed(item: Item, mass_unit: str) -> str:
    """The plan of an item in the words in which it is typed: ``107.5 kg x 6, 6, 6, 6; 4 left``."""
    left = () if item.reps_in_reserve is None else (item.reps_in_reserve,)
    planned = LoggedItem.model_construct(
        item=item.id,
        load=item.load_kg or None,
        sets=None if item.reps else item.sets,
        reps=(item.reps,) * item.sets if item.reps else (),
        reps_in_reserve=left,
    )
    return item_text(planned, mass_unit)


def _again(logged: LoggedItem, item: Item, line: AthleteLine) -> str:
    same = logged.movement == item.movement
    shown = logged.model_copy(update={"movement": None}) if same else logged
    return item_text(shown, line.mass_unit, line.length_unit)


def _numbers(answer: str, session: Session) -> list[int]:
    if answer == AS_PLANNED:
        return []
    if answer == ALL:
        return [at for at, item in enumerate(session.items, start=1) if item.sets]
    named = [item_named(word, session) for word in answer.replace(",", " ").split()]
    return sorted({session.items.index(item) + 1 for item in named})


def _known(value: int | None) -> str:
    return "" if value is None else str(value)


def _within(low: int, high: int) -> Check:
    def check(answer: str) -> str:
        if not (answer.isdecimal() and low <= int(answer) <= high):
            raise ValueError(f"a whole number from {low} to {high}")
        return answer

    return check


def _or_nothing(inner: Check) -> Check:
    return lambda answer: NOTHING if answer in (NOTHING, "") else inner(answer)


def _pain(answer: str) -> str:
    read_pain(answer)
    return answer
