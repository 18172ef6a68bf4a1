"""Where a number comes from, as text: gap, quality, emphasis, range, sets; rules at their limit; the second choice.

Written from the data of ``why_data`` alone, so that text and JSON cannot disagree.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from planner.domain.terms import QUALITY_NAMES, Quality
from planner.report.terminal import wrap
from planner.report.why_data import Data
from planner.rules.figure_words import counted, listed
from planner.units import UNITS, format_mass

MOST_RULES = 8
MOST_PLACES = 3
FITS = {
    True: "every weekly range would still be met",
    None: "whether every weekly range would be met was not settled in time",
}
NOTHING_ELSE = "nothing else of its kind is open to this athlete"
BREAKS = "a hard rule forbids it together with the block's other movements"


@dataclass(frozen=True)
class _Units:
    """Loads, heights and forces as the athlete's file prints them."""

    mass_unit: Literal["kg", "lb"]
    length_unit: Literal["cm", "in"]

    def load(self, load_kg: float, digits: int = 1) -> str:
        return format_mass(load_kg, self.mass_unit, digits)

    def height(self, height_m: float) -> str:
        return f"{height_m / UNITS['length'][self.length_unit]:.1f} {self.length_unit}"

    def force(self, force_N: float) -> str:
        unit = "N" if self.mass_unit == "kg" else "lbf"
        return f"{force_N / UNITS['force'][unit]:.0f} {unit}"


def _units(data: Data) -> _Units:
    return _Units(data["print_as"]["mass"], data["print_as"]["length"])


def block_text(data: Data) -> str:
    """The story of the whole block: what the tests say, how the weeks go, what is proved, which rules bind."""
    units = _units(data)
    lines = [f"{data['athlete']}: {data['template']}, {counted(len(data['weeks']), 'week')}", ""]
    lines += ["From the test to the work", wrap(_gap_sentence(data["gap"], units), "  ")]
    lines += [wrap(sentence, "  ") for sentence in data["story"]]
    lines += [wrap(_emphasis(data["emphasis_factors"]), "  "), "", "The weeks"]
    lines += [wrap(_week_sentence(week), "  ") for week in data["weeks"]]
    over_or_under = data["over_or_under"] or ["all weekly ranges met"]
    lines += ["", "Weekly ranges", *[wrap(sentence, "  ") for sentence in over_or_under]]
    proved = "proved over the whole library:" if data["proved"] else "not proved:"
    lines.append(wrap(f"{proved} no block comes closer", "  "))
    lines += ["", "Rules at their limit, most often first", wrap(_most_at_limit(data["at_limit"]), "  ")]
    lines += ["", "With --week, --session or a movement: the same in detail."]
    return "\n".join(lines) + "\n"


def _emphasis(factors: dict[Quality, float]) -> str:
    more = [f"{QUALITY_NAMES[quality]} × {factor:.2f}" for quality, factor in factors.items() if round(factor, 2) != 1]
    return f"emphasis: {listed(more)}, the rest as in the template" if more else "emphasis: as in the template"


def _phase(week: Data) -> str:
    return str(week["phase"]) if week["role"] == week["phase"] else f"{week['phase']}, {week['role']}"


def _most_at_limit(rules: list[Data]) -> str:
    most = sorted(rules, key=lambda rule: -len(rule["places"]))[:MOST_RULES]
    return "; ".join(f"{rule['title']} ({counted(len(rule['places']), 'place')})" for rule in most) or "none"


def _week_sentence(week: Data) -> str:
    sets = ", ".join(f"{done:g} of {QUALITY_NAMES[quality]}" for quality, done in week["done_sets"].items())
    high, sprints = week["high_tier_contacts"], counted(week["done_sprint_efforts"], "sprint")
    jumps = f"{counted(week['done_contacts'], 'contact')} ({high} high tier)"
    return f"{week['week']} from {week['starts']}, {_phase(week)}: {jumps}, {sprints}; sets: {sets}"


def session_text(data: Data) -> str:
    """Why one session contains what it does."""
    date = datetime.date.fromisoformat(data["date"])
    lines = [f"{date:%A} {date} ({data['session']}), week {data['week']}, {data['phase']}"]
    lines += [wrap(f"Why today: {data['why_today']}"), "", *_chain_lines(data), "", "What is in it"]
    for item in data["items"]:
        lines += [wrap(line, indent) for indent, line in _item_lines(item, _units(data))]
    lines += ["", "Rules at their limit here", *_limit_lines(data)]
    return "\n".join(lines) + "\n"


def week_text(data: Data) -> str:
    """Why one week contains as much as it does."""
    start = datetime.date.fromisoformat(data["starts"])
    lines = [f"Week {data['week']} from {start:%A} {start}: {_phase(data)}", ""]
    lines += [*_chain_lines(data), "", "Contacts"]
    for line in data["contacts"]:
        tier = "in all" if line["tier"] == "all" else f"{line['tier']} tier"
        aim = f"{line['aim_low_contacts']:g} to {line['aim_high_contacts']:g}"
        lines.append(f"  {tier}: weekly range {aim}, holds {line['done_contacts']:g}")
    lines += [wrap(data["closed_jumps"], "  ")] if data["closed_jumps"] else []
    lines += ["", "Sessions", *[wrap(f"{s['session']}: {s['why_today']}", "  ") for s in data["sessions"]]]
    lines += ["", "Rules at their limit this week", *_limit_lines(data)]
    return "\n".join(lines) + "\n"


def movement_text(data: Data) -> str:
    """Why a movement is in the block, and where; or why it is not in it, and what it would cost."""
    lines = [f"{data['name']} ({data['movement']})", *[wrap(line, "  ") for line in _standing(data)]]
    lines.append(wrap(f"trains: {_tags(data['trains'])}; patterns: {', '.join(data['patterns']) or 'none'}", "  "))
    lines.append(wrap(f"joint stress: {_tags(data['joint_stress_tags'])}", "  "))
    lines.append(wrap(f"source of the tags: {data['source_of_tags']}", "  "))
    if data["chain"]:
        lines += ["", *_chain_lines(data, with_gap=False)]
    return "\n".join(lines) + "\n"


def chain_sentence(line: Data) -> str:
    """Test, deficit, emphasis, weekly range and work done in one sentence."""
    name = QUALITY_NAMES[line["quality"]]
    if line["status"] == "untested" or line["have"] is None or line["need"] is None:
        said = f"{name}: untested, so {_share(1.0, line['template_sets'])}"
    else:
        leg = f", {line['side']} leg" if line["side"] in ("left", "right") else ""
        tests = " and ".join(_test(test) for test in (line, *line["other_tests"]))
        said = f"{name}{leg}: has {tests}, so {_share(line['emphasis_factor'], line['template_sets'])}"
    unit = "sets" if "done_sets" in line else "sprint_efforts"
    low, high, done = (line[f"{what}_{unit}"] for what in ("aim_low", "aim_high", "done"))
    said += f"; after days, minutes, growth and sport the weekly range is {low:g} to {high:g} {unit.replace('_', ' ')}"
    return f"{said}, and the week holds {done:g}"


def _test(test: Data) -> str:
    state = f"{_state(test['deficit_fraction'])}, confidence {100 * test['confidence_fraction']:.0f} %"
    return f"{test['have']:,.4g} {test['unit']}, needs {test['need']:,.4g} ({state}; test: {test['source']})"


def _state(deficit: float) -> str:
    percent = round(100 * abs(deficit))
    if percent == 0:
        return "just enough"
    return f"short by {percent} %" if deficit > 0 else f"over by {percent} %"


def _share(factor: float, template_sets: float | None) -> str:
    work = "the template's share" if template_sets is None else f"the template's {counted(template_sets, 'set')}"
    one = template_sets is None or template_sets == 1
    if round(factor, 2) == 1:
        return f"{work} {'stays' if one else 'stay'}"
    return f"{work} {'is' if one else 'are'} multiplied by {factor:.2f}"


def _chain_lines(data: Data, *, with_gap: bool = True) -> list[str]:
    lines = ["From the test to this week's work"]
    if with_gap:
        lines.append(wrap(_gap_sentence(data["gap"], _units(data)), "  "))
    return [*lines, *[wrap(chain_sentence(line), "  ") for line in data["chain"]]]


def _gap_sentence(gap: Data, units: _Units) -> str:
    said = f"gap: from a rise of {units.height(gap['rise_now_m'])} now to {units.height(gap['rise_target_m'])} at the"
    said += f" target takes, in a contact of {gap['contact_time_s']:.3f} s, "
    said += (
        f"{units.force(gap['mean_ground_force_target_N'])} instead of {units.force(gap['mean_ground_force_now_N'])}:"
    )
    said += f" {units.force(gap['force_gap_N'])} more (± {units.force(gap['force_gap_se_N'])})"
    return said + (", which is inside the noise of the test" if gap["inside_noise"] else "")


def _item_lines(item: Data, units: _Units) -> Iterator[tuple[str, str]]:
    """Pairs of indent and line: the dose in its progression, where the load comes from, the second choice."""
    yield "  ", f"{item['name']}: {counted(item['sets'], 'set')}{_dose(item)}; planned progression: {_wave(item)}"
    if item["extra_set_leg"]:
        tests = "which tests weaker" if item["extra_set_is_due"] else "which no test here finds weaker"
        yield "    ", f"the {item['extra_set_leg']} leg, {tests}, goes first and gets one set more"
    if item["load_is_found_by"] != "none":
        yield "    ", _where_the_load_is_from(item, units)
    yield "    ", f"second choice: {_alternative(item['next_best'], NOTHING_ELSE)}"


def _where_the_load_is_from(item: Data, units: _Units) -> str:
    best_kg, load_kg, percent = item["own_maximum_kg"], item["load_kg"], item["percent"]
    if best_kg is None:
        return "no test of its reference lift: the athlete finds the load by the reserve"
    best, load = units.load(best_kg, 0), units.load(load_kg or 0.0)
    if load_kg is None:
        return f"the tests show {best}; on this day: {item['note'] or 'the load is to be found'}"
    if percent is None:
        return f"{load} of the {best} that the tests show: reps rise first, then the gym's next load"
    if item["percent_with_body"]:
        share = f"with the body that goes up, {percent:g} % of body and the {best} that the tests show"
        return f"{load} is, {share}, to the nearest load the gym has"
    return f"{load} is {percent:g} % of the {best} that the tests show, to the nearest load the gym has"


def _dose(item: Data) -> str:
    if item["hold_s"]:
        return f" held {item['hold_s']} s"
    reserve = (
        f" with {counted(item['reps_in_reserve'], 'rep')} in reserve" if item["reps_in_reserve"] is not None else ""
    )
    return f" of {item['reps']}{reserve}" if item["reps"] else reserve


def _wave(item: Data) -> str:
    low, high = item["wave_low_sets"], item["wave_high_sets"]
    if low is None:
        return str(item["wave"])
    return f"{item['wave']} ({counted(high, 'set') if low == high else f'{low} to {high} sets'} this week)"


def _alternative(found: Data | None, none: str) -> str:
    """Why it comes second, and which weekly ranges or rules it would break."""
    if found is None:
        return none
    points = found["points_more"]
    if points > 0:
        why = f"because {listed(found['because'])} ({counted(points, 'point')})"
    else:
        why = "just as good" if points == 0 else "better alone, but not in the block as a whole"
    return f"{found['name']}, {why}; {_cost(found)}"


def _cost(found: Data) -> str:
    if found["fits"] is not False:
        return FITS[found["fits"]]
    if not found["would_miss"]:
        return BREAKS
    said = [f"{_amount(m['amount'], m['unit'])} ({m['where']})" for m in found["would_miss"][:MOST_PLACES]]
    more = len(found["would_miss"]) - MOST_PLACES
    return f"it would miss a weekly range by {listed([*said, f'{more} more'] if more > 0 else said)}"


def _amount(amount: float, unit: str) -> str:
    return f"{round(amount, 2):g} {unit[:-1] if amount == 1 and unit.endswith('s') and ' ' not in unit else unit}"


def _standing(data: Data) -> Iterator[str]:
    if data["in_block"]:
        yield "in the block:"
        for place in data["in_block"]:
            date = datetime.date.fromisoformat(place["date"])
            load = f" at {_units(data).load(place['load_kg'])}" if place["load_kg"] is not None else ""
            yield f"  week {place['week']}, {date:%A}: {counted(place['sets'], 'set')}{_dose(place)}{load}"
        yield f"second choice: {_alternative(data['next_best'], NOTHING_ELSE)}"
    for line in data["closed_by"]:
        yield f"closed to this athlete: it {line['reason']} (rule {line['rule']}; {line['source']})"
    if data["in_block"] or data["closed_by"]:
        return
    if data["chosen_in_its_place"] is None:
        yield "open to this athlete; no session of the block has a place for its part, pattern and tier"
        return
    yield f"open to this athlete, but not chosen: {data['chosen_in_its_place']['name']} is in its place"
    yield f"in that place it is second: {_alternative(data['would_cost'], '')}"


def _tags(tags: dict[str, int]) -> str:
    return ", ".join(f"{name} {tag}" for name, tag in tags.items()) or "none"


def _limit_lines(data: Data) -> list[str]:
    lines = []
    for rule in data["at_limit"][:MOST_RULES]:
        said = list(dict.fromkeys(_limit(place, rule["unit"]) for place in rule["places"]))
        more = len(said) - MOST_PLACES
        named = "; ".join(said[:MOST_PLACES]) + (f"; and {more} more" if more > 0 else "")
        lines.append(wrap(f"{rule['title']}: {named} ({rule['source']})", "  "))
    return lines or ["  none"]


def _limit(place: Data, unit: str) -> str:
    if place["in_words"]:
        return f"{place['where']}, {place['in_words']}"
    for key, words in (("at_most", "at most"), ("at_least", "at least")):
        if place[key] is not None:
            return f"{place['where']}, {words} {_amount(place[key], unit)}"
    return str(place["where"])
