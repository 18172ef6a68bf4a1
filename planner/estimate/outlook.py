"""What a block may bring, as a range from published gains, and how many blocks the gap may take."""

from __future__ import annotations

import math

from planner.domain.gap_record import OutlookLine
from planner.domain.test_kinds import OutlookRule
from planner.estimate.words import Words


def outlook_of(*, rise_now_m: float, gain_wanted_m: float, rule: OutlookRule) -> OutlookLine:
    """Gains are shares of the present rise. The fewest blocks assume the highest gain each time, the most the lowest.

    Later blocks usually bring less than the first, so the count is "at best".
    """
    shares = [gain.percent / 100.0 for gain in rule.gains]
    low_m, high_m = rise_now_m * min(shares), rise_now_m * max(shares)
    few, many = (_blocks(gain_wanted_m, gain_m) for gain_m in (high_m, low_m))
    if few is None or few > rule.most_blocks:
        few = many = None
    return OutlookLine(low_m=low_m, high_m=high_m, blocks_low=few, blocks_high=many)


def _blocks(wanted_m: float, gain_m: float) -> int | None:
    return max(1, math.ceil(wanted_m / gain_m - 1e-9)) if wanted_m > 0 and gain_m > 0 else None


def outlook_words(outlook: OutlookLine, wanted_m: float, rule: OutlookRule, words: Words) -> str:
    """One or two sentences for the page."""
    low, high = words.length(outlook.low_m).split()[0], words.length(outlook.high_m)
    a_block = f"A block has brought groups {low} to {high} at this height"
    if wanted_m <= 0:
        return f"{a_block} (published means); this target asks for none."
    if outlook.blocks_low is None:
        return f"{a_block} (published means): this gap is more than {rule.most_blocks} blocks; set a nearer mark first."
    if outlook.blocks_high is None or outlook.blocks_high > 2 * rule.most_blocks:
        count = f"{outlook.blocks_low} blocks or many more"
    elif outlook.blocks_low == outlook.blocks_high:
        count = f"about {outlook.blocks_low} block{'s' if outlook.blocks_low > 1 else ''}"
    else:
        count = f"about {outlook.blocks_low} to {outlook.blocks_high} blocks"
    promise = (
        "One block may close it; none is promised to."
        if wanted_m <= outlook.high_m
        else "This block does not close it."
    )
    return f"{a_block} (published means): the gap is {count} at best, later ones bring less. {promise}"
