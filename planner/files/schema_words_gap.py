"""What each field of a block's estimate and athlete's line means; see schema_words for how the lines are read."""

from __future__ import annotations

GAP = """
Item.implement: What the load is built from.
Gap:
.touch_down: Forces if the body still falls as the foot lands.
.method: How the height was measured.
.contact_time_s: Ground contact of the take-off, seconds.
.contact_time_from: Measured, or a stand-in.
.push_off_m: Push-off distance of a jump from a stand, metres.
.body_mass_kg: Body mass, kg.
.inside_noise: true if the gap is smaller than the measurement tells apart.
.now: The take-off now.
.target: The take-off at the target.
.gap: Their difference.
.qualities: Have, need and deficit of each quality.
.strength_share: Share of the gap that strength explains.
.speed_share: Share of the gap that speed explains.
.next_test: The test that would tell most.
.story: The estimate in sentences.
.notes: What to mind about it.
.outlook: What a block may add.
.retest: When a change is real.
.heights: Every test that tells the height.
.sides: Left against right.
.second_opinions: Figures the trade also uses; none moves the block.
GapLine:
.rise_m: Rise after take-off, metres.
.take_off_speed_m_s: Speed at take-off, metres a second.
.net_impulse_Ns: Impulse above body weight, newton seconds.
.mean_net_force_N: Mean force above body weight, newtons.
.mean_ground_force_N: Mean force on the ground, newtons.
.mean_ground_force_bw: The same in body weights.
.rise_m_se: Standard error of the rise.
.take_off_speed_m_s_se: Standard error of the speed.
.net_impulse_Ns_se: Standard error of the impulse.
.mean_net_force_N_se: Standard error of the net force.
.mean_ground_force_N_se: Standard error of the ground force.
.mean_ground_force_bw_se: Standard error of the ground force in body weights.
QualityLine:
.quality: Which quality.
.status: Tested or untested.
.have: What the tests show.
.need: What the target asks for.
.deficit: What is missing, as a share of the need; below 0 a surplus.
.confidence: How sure that is, 0 to 1.
.emphasis: Factor on the template's share; 1 leaves it.
.deficit_se: Standard error of the deficit.
.emphasis_se: Standard error of the factor.
.counts: Whether the emphasis follows this test; else it is the other leg, or a second choice of test.
OutlookLine:
.low_m: Least gain by published figures, metres.
.high_m: Largest gain by published figures, metres.
.blocks_low: Fewest blocks the gap may take.
.blocks_high: Most blocks the gap may take.
RetestWayLine:
.days: Number of test days.
.jumps: Jumps on each.
.detectable_m: Smaller changes may be chance, metres.
TouchDownLine:
.measured: true if the speed was measured, else a usual range.
.slowest_m_s: Least downward speed as the foot lands, metres a second.
.fastest_m_s: Most downward speed as the foot lands, metres a second.
.now_at_least_N: Mean ground force now if the body does not fall, newtons.
.now_low_N: The same at the least speed.
.now_high_N: The same at the most speed.
.target_at_least_N: Mean ground force at the target if the body does not fall, newtons.
.target_low_N: The same at the least speed.
.target_high_N: The same at the most speed.
.gap_per_tenth_N: What 0.1 m/s of difference between now and the target does to the gap, newtons.
RetestLine:
.ways: The same for other numbers of days and jumps.
.minimal_detectable_change_m: Smaller changes may be chance, metres.
.smallest_worthwhile_change_m: Smaller changes are not worth having, metres.
HeightLine:
.test: Which test.
.rise_m: Rise it tells, metres.
.rise_m_se: Its standard error.
.counts: true if the estimate rests on it.
SideDifference:
.test: Which test.
.left: Result of the left leg.
.right: Result of the right leg.
.difference_percent: Difference, percent.
.error_percent: Standard error of that, percent.
.weaker: The weaker leg; null where the difference is inside the error.
.quality: The quality that the test tells; null where it tells several, or none that lifts train.
.superseded: true where a later test of the same kind speaks now.
SecondOpinion:
.value: The figure.
.says: How the trade reads it.
.caution: What to mind.
AthleteLine:
.target: The target in words.
.mass_unit: Unit of masses on the cards.
.length_unit: Unit of lengths on the cards.
.paper: Paper of the cards.
.dates: How dates are written.
.gym: What loads are built from.
.times: When training starts, by weekday.
.tests: The tests as they were taken.
Gym:
.bar_kg: Mass of the bar, kg.
.plates_kg: One entry for each pair of plates, kg.
.dumbbells_kg: Dumbbells there are, kg.
TestLine:
.movement: Name of the lift.
.how: Take-off, method, protocol.
.result: What came of it.
"""
