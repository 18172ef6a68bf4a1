"""The analysis of a record: which jumps it holds, and what each of them tells."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any, NoReturn

import numpy as np

from planner.domain.findings import Finding, UserError
from planner.domain.platform_rule import PlatformRule
from planner.estimate.notebook import Notebook
from planner.force_platform import record_faults
from planner.force_platform.drop_jump import drop_jump
from planner.force_platform.evidence import evidence_of
from planner.force_platform.flights import Air, stretches_of_air
from planner.force_platform.force_record import ForceRecord
from planner.force_platform.jump_case import Case, JumpFound, Options
from planner.force_platform.platform_jump import PlatformJump
from planner.force_platform.signal import Samples
from planner.force_platform.standing_jump import standing_jump
from planner.force_platform.stands import standing_of
from planner.force_platform.weighing import own_stand
from planner.units import counted


def analyse(record: ForceRecord, rule: PlatformRule, options: Options, notes: Notebook) -> list[PlatformJump]:
    """Every jump asked for. Raises UserError with all findings where there is none, several, or none that can be
    trusted; warnings and notes stay in ``notes``."""
    force, missing = _clean(record, rule, notes)
    record_faults.check_rate(record.rate_Hz, rule, notes)
    _stop(notes)
    airs = stretches_of_air(force, record.rate_Hz, rule)
    record_faults.zeroed_under_load(force, airs, rule, notes)
    _stop(notes)
    found = jumps_in(airs, len(force), record.rate_Hz, rule)
    chosen = _choose(found, record, rule, options, notes)
    hidden = record_faults.small_readings_zeroed(force, airs, rule, notes)
    standing = standing_of(force, record.rate_Hz, rule, airs)
    shared: dict[str, Any] = {"record": record, "force_N": force, "missing": missing, "standing": standing}

    def case_of(number: int, one: JumpFound) -> Case:
        kind = options.kind if options.kind != "auto" else "drop" if one.rebound else "countermovement"
        return Case(**vars(one), **shared, rule=rule, options=options, kind=kind, number=number)

    cases = [case_of(number, one) for number, one in chosen]
    drops = [case for case in cases if case.kind == "drop"]
    from_stands = [case for case in cases if case.kind != "drop"]
    jumps = _each(drops, drop_jump, notes, skip=options.take_all)
    if from_stands:
        others = [case_of(0, one) for one in found if not one.rebound and one not in [two for _, two in chosen]]
        make = _from_stands(from_stands, others, airs, hidden, notes)
        jumps += _each(from_stands, make, notes, skip=options.take_all)
    jumps.sort(key=lambda jump: jump.number)
    record_faults.horizontal_unknown(notes)
    return jumps


MakeJump = Callable[[Case, Notebook], PlatformJump | None]


def _each(cases: list[Case], make: MakeJump, notes: Notebook, *, skip: bool) -> list[PlatformJump]:
    """The jumps of ``cases``. One that is refused stops all, or with ``skip`` is left out with a warning; not the
    last one left."""
    jumps: list[PlatformJump] = []
    refused: list[Finding] = []
    for case in cases:
        own = Notebook()
        jump = make(case, own)
        if skip:
            own.findings = [replace(one, message=f"jump {case.number}: {one.message}") for one in own.findings]
        if jump is not None and not own.has_errors:
            jumps.append(jump)
            notes.findings += own.findings
        elif skip and len(refused) + 1 < len(cases):
            refused += own.findings
        else:
            raise UserError(sorted([*notes.findings, *refused, *own.findings]))
    for one in refused:
        left_out = one.level == "error"
        notes.findings.append(replace(one, level="warning", message=f"{one.message}; left out") if left_out else one)
    return jumps


def _from_stands(cases: list[Case], others: list[Case], airs: list[Air], hidden: bool, notes: Notebook) -> MakeJump:
    """How to read a jump from a stand, by one balance of the whole record; ``others``: jumps not asked for."""
    every = sorted([*cases, *others], key=lambda case: case.air.start)
    starts = [(case, own) for case in every if (own := own_stand(case)) is not None]
    if not starts and not every[0].standing.believed:
        least = f"{every[0].rule.shortest_weighing:g} s"
        hint = "stand still for a full second or two before the jump"
        _refuse(notes, "no-weighing", f"there is no quiet standing of even {least} in the record", hint)
    balance, told = evidence_of(starts, every[0], airs, hidden=hidden)
    by_flight = {case.air.start: (own, one) for (case, own), one in zip(starts, told, strict=True)}

    def make(case: Case, own_notes: Notebook) -> PlatformJump | None:
        own, one = by_flight.get(case.air.start, (None, None))
        return standing_jump(case, own, one, balance, own_notes)

    return make


def jumps_in(airs: list[Air], length: int, rate_Hz: float, rule: PlatformRule) -> list[JumpFound]:
    """Flights of a plausible length, with contact before and after them; ``length``: samples of the record."""
    found = []
    for place, air in enumerate(airs):
        length_s = (air.end - air.start) / rate_Hz
        if air.open_start or air.open_end or not rule.shortest_flight <= length_s <= rule.longest_flight:
            continue
        before = airs[place - 1].end if place else 0
        after = airs[place + 1].start if place + 1 < len(airs) else length
        contact_s = (air.start - before) / rate_Hz
        if contact_s < rule.shortest_contact or (after - air.end) / rate_Hz < rule.shortest_contact:
            continue
        rebound = place > 0 and contact_s <= rule.longest_rebound_contact
        others = tuple(airs[:place] + airs[place + 1 :])
        found.append(JumpFound(before, air, others, rebound, after))
    return found


def _clean(record: ForceRecord, rule: PlatformRule, notes: Notebook) -> tuple[Samples, np.ndarray]:
    """The force with missing samples bridged by straight lines, and where they were."""
    force = np.asarray(record.force_N, dtype=np.float64)
    missing = ~np.isfinite(force)
    if len(force) < 20 or missing.mean() > rule.missing_over:
        share = 100 * float(missing.mean()) if len(force) else 100.0
        message = f"the record has {counted(len(force), 'sample')}, {share:.0f} % of them missing"
        _refuse(notes, "missing-samples", message, "export the whole record anew")
    if missing.any():
        places = np.arange(len(force))
        force = np.interp(places, places[~missing], force[~missing])
    return force, missing


def _choose(
    found: list[JumpFound], record: ForceRecord, rule: PlatformRule, options: Options, notes: Notebook
) -> list[tuple[int, JumpFound]]:
    """The jumps asked for, numbered from 1 among those of their kind."""
    wanted = [one for one in found if one.rebound == (options.kind == "drop")]
    if options.kind == "auto" and not wanted:
        wanted = found
    if not wanted:
        _refuse(notes, "no-flight", *_no_flight(found, record, rule, options))
    if options.number is not None:
        if not 1 <= options.number <= len(wanted):
            _refuse(notes, "no-such-jump", f"the record has {counted(len(wanted), 'jump')}, not {options.number}")
        return [(options.number, wanted[options.number - 1])]
    if len(wanted) > 1 and not options.take_all:
        message = f"{len(wanted)} jumps in this record, with take-offs at {_take_offs(wanted, record)}"
        _refuse(notes, "several-jumps", message, "name one with --number N, or take all with --all")
    return list(enumerate(wanted, start=1))


def _no_flight(found: list[JumpFound], record: ForceRecord, rule: PlatformRule, options: Options) -> tuple[str, str]:
    """What there is instead of the flight that was looked for, and what to do."""
    if found:
        short = found[0].rebound
        after = (
            "a short contact, as a drop jump's does" if short else "a stand or a long contact, as no drop jump's does"
        )
        message = f"no {options.kind} jump in this record: the flight at {_take_offs(found, record)} follows {after}"
        return message, "say --jump drop" if short else "say --jump countermovement or --jump squat"
    known = np.asarray(record.force_N)[np.isfinite(record.force_N)]
    low, high = float(np.min(known)), float(np.max(known))
    message = f"no flight of a jump in this record: its force goes from {low:,.1f} to {high:,.1f} N"
    if max(abs(low), abs(high)) < rule.unit_doubted_under:
        return message, "nobody weighs that little; check the unit of force (--unit kN, lbf)"
    return message, "record from standing still to standing still again"


def _take_offs(found: list[JumpFound], record: ForceRecord) -> str:
    return ", ".join(f"{one.air.start / record.rate_Hz:.2f} s" for one in found[:12])


def _refuse(notes: Notebook, code: str, message: str, hint: str = "") -> NoReturn:
    notes.add("error", code, message, hint=hint)
    raise UserError(sorted(notes.findings))


def _stop(notes: Notebook) -> None:
    if notes.has_errors:
        raise UserError(sorted(notes.findings))
