"""What each field of a benchmarks file and of a library's review means; see schema_words for how the lines are read."""

from __future__ import annotations

BENCHMARKS_AND_REVIEW = """
LibraryReview:
.gyms: Gyms that the cover is counted for.
.cover: How many movements a cell of the cover asks for.
.joints: When a joint is over-represented.
.tags: When a tag stands apart from those of its family.
KindOfGym:
.name: Its head in the table.
.has: Ids of equipment.yaml; left out, everything; an empty list, body weight alone.
LeastCover:
.least_movements: With fewer movements that train the quality in full, a cell is thin.
.least_families: With movements of fewer families, a cell is thin.
JointShare:
.largest_share: Share of all stress points above which a joint is over-represented.
.weights: Points of a tag of 1, 2 and 3.
TagDistance:
.steps_apart: Told when a tag is so many steps from that of every relative.
.least_relatives: Told only where there are so many relatives: same family, same use of the legs.

Benchmarks:
.errors: Errors that belong to no kind of test.
.test_kinds: The kinds of test: how each is taken and how far one trial errs.
.conversions: From a height by one method to that by another.
.retest: When a change is real, and when it is worth having.
.take_offs: What is assumed of a one-leg and of a two-leg take-off where it was not measured.
.touch_down: How fast the body still falls as the foot lands off a run-up, where it was not measured.
.axis: The ground forces, in body weights, between which the curves hold.
.qualities: The tests of each quality and what the target asks of them.
.confidence: How far a deficit is believed.
.emphasis: How deficits tilt the work.
.strength: From a set to a maximum.
.weaker_leg: When an extra set may be asked for one leg.
.what_if: Examples on the second page of the gap.
.outlook: What a block may promise.
.second_opinions: Figures the trade also uses; none of them moves the block.
.platform: How a force-platform record is read.
MeasurementErrors:
.body_mass: Error of the athlete's mass.
.other_method: Added when the target's method is another one and no conversion is given.
MassError:
.standard_error_kg: Standard error, kg.
HeelRise:
.stand_in: Heel rise where no tip-toe reach was measured.
.standard_error: Standard error of that stand-in.
.measured_standard_error: Standard error where it was measured.
ContactStandIn:
.value: Contact time where none was measured.
.standard_error: Its standard error.
PushOffStandIn:
.share_of_stature: Push-off distance as a share of stature.
.standard_error: Standard error of the distance.
TakeOffBasis:
.heel_rise: What a touch gains before the feet leave the ground.
.contact: Ground contact of a run-up jump.
.push_off: Push-off distance of a jump from a stand.
.axis_shift: Added to the mean ground force, in body weights, before the curves are read.
.axis_source: Where that comes from.
Axis:
.low: Least mean ground force, body weights; below it the curves are read here.
.high: Largest mean ground force, body weights; above it the curves are read here.
Curve:
.at: Mean ground force, body weights, at which the base holds.
.base: What is needed there.
.slope: How much more for each body weight of ground force.
.cap: No more than this is needed of the sloping part.
.plus: Added at the end; 1 where the body is lifted along.
LiftReading:
.movements: Ids of the lifts that count as this test.
.formula: From a set to a maximum: epley, brzycki, or the mean of both.
.body_mass_share: Share of body mass counted in the load while the maximum is estimated.
.leg_share: Share of the load on the leg that works.
SuggestTo:
.least_level: From this level on the test may be advised.
.landing_must_hold: true if it is advised only to those whose landing holds.
QualityTest:
.name: As printed.
.kind: Which kind of result tells it.
.sides: Both legs together, or each.
.need_in: body-weights becomes newtons; the others stay in the test's own unit.
.curves: What one-leg and two-leg take-offs ask of it.
.standard_error: Relative: one usual trial and the curve together.
.lift: How a lift tells a force.
.free_form_factor: Heel raises without beat and full height count this much.
.longest_contact: A longer contact is no test of fast force.
.drop: Height of the box that the curve is drawn for.
.least_share_of_countermovement: A rebound below this share of the jump with a dip was stiff but low.
.split_from: A split of a sprint from here on is near top speed.
.suggest_to: Who may be advised to do it.
QualityBenchmark:
.combine: first takes the first test that was done, average weighs them by confidence.
.usual_sets: Usual share of a week, to weigh which missing test would help most.
.tests: Its tests in order of preference.
ConfidenceRule:
.scatter: How far deficits scatter from athlete to athlete; a test is trusted against that.
.least_for_shares: Tests less sure than this do not share out the gap.
.half_sure_from: A test this sure reads as half sure, below it as a hint.
.fairly_sure_from: A test this sure reads as fairly sure.
.noise_multiple: A gap below so many standard errors is inside the noise.
EmphasisRule:
.gain: How strongly a deficit tilts the work.
.lift_range: Least and most that the tilt makes of a lift's share.
.speed_range: The same for speed.
.dead_zone: A tilt smaller than this is none.
.strong_and_sure: Confidence times deficit of maximal strength below which it is kept at maintenance.
LoadRepetition:
.reps: Repetitions to the limit.
.percent: Percent of the one-repetition maximum that allows them.
StrengthRule:
.most_reps: Most repetitions, done and in reserve together, that are believed.
.reserve_error_reps: Error of a stated reserve, repetitions.
.most_reserve: A reserve above this is a guess.
.failure_error_reps: Error of a set called to failure, repetitions.
.guessed_reserve_error_reps: Error of such a guess, repetitions.
.hint_reps: Repetitions of the set that is advised where a lift was not tested.
.load_repetitions: Percent of the maximum for each number of repetitions.
.load_repetitions_source: Where that table comes from.
WeakerLegRule:
.least_difference_percent: Least difference of the legs, as a share of the stronger one.
WhatIf:
.contact_steps_s: Contact times shown, as steps from the measured one, seconds.
.push_off_steps_m: Push-off distances shown, as steps from the measured one, metres.
.touch_down_speed_m_s: Vertical speed at touch-down in the example of a fall, metres a second; below 0 is down.
KindOfTest:
.name: As printed.
.measures: What it measures.
.method: How it is taken.
.trials: How many trials a test day usually counts.
.length_error: How it errs as a length; give one of the three.
.time_error: How it errs as a time; give one of the three.
.share_error: How it errs as a share of its result; give one of the three.
.refuse_contact_under: A video slower than this gives no contact time.
.warn_contact_under: A video slower than this gives one with a warning.
.refuse_speed_over_m_s: A faster sprint is not believed, metres a second.
TouchDown:
.slowest_m_s: Least downward speed as the foot lands, metres a second.
.fastest_m_s: Most downward speed as the foot lands, metres a second.
.measured_standard_error_m_s: Standard error of a speed that was measured.
LengthError:
.resolution: Step of the scale.
.typical_error: One standard deviation of one trial.
.day_error: One standard deviation of a day around the athlete's own mean; left out, days count as alike.
.day_source: Where that comes from.
TimeError:
.resolution: Step of the clock.
.typical_error: One standard deviation of one trial.
.day_error: One standard deviation of a day around the athlete's own mean; left out, days count as alike.
.day_source: Where that comes from.
ShareError:
.resolution: Step of the scale, as a share.
.typical_error: One standard deviation of one trial, as a share.
.day_error: One standard deviation of a day around the athlete's own mean; left out, days count as alike.
.day_source: Where that comes from.
Conversion:
.measured_by: Method of the height there is.
.wanted_by: Method of the height wanted.
.add_cm: Added to it, cm.
.standard_error_cm: Standard error of that, cm.
RetestDays:
.days: Number of test days.
.jumps: Jumps on each.
RetestRule:
.together_days: Test days this near to the latest count with it; 0: the latest alone.
.together_errors: A day further off than this, in errors of both, is a change and stays out.
.ways: Numbers of days and jumps that a retest is advised with.
.multiple: Times the root of 2 and the standard error of a test day: the least change that is real.
.worthwhile_share: Share of the spread between athletes: the least change worth having.
.between_athletes: Standard deviation of height between athletes.
.between_athletes_source: Where that comes from.
Gain:
.jump: Which jump was trained and tested.
.percent: Gain in height, percent.
OutlookRule:
.gains: Published gains; a block promises from the smallest to the largest.
.most_blocks: A gap of more blocks than this needs a nearer target first.
IndexStep:
.below: Up to this figure; the last step has none.
.says: How it is read.
RatioRule:
.steps: How the figure is read, lowest first.
.caution: Printed with it.
ProfileRule:
.least_loads: Fewest loads.
.least_spread_m_s: Least difference of speed between the lightest and the heaviest, metres a second.
.imbalance: How its imbalance is read.
SecondOpinions:
.dynamic_strength: Peak force of a jump against that of a push at a fixed bar.
.stretch_shortening: Jump with a dip against the jump without.
.profile: Force against speed over several loads.
EdgeRule:
.fit: How much of the contact next to the threshold's crossing is fitted.
.bend_per_s: How far the force may bend there: standard deviation of its slope's relative change a second.
.longest_under: No instant of zero force is looked for further from the crossing.
.least_noise: Least scatter of force about the fit.
.unseen_share: Error for what force does unseen under the threshold, as a share of the time it spends there.
.hidden_share: The same where small readings were set to zero before the file was written.
.sample_share: Standard error of the instant, of the time between two samples at 100 a second; less at more.
.rougher: From so many times the noise's mean square about the fit, its own roughness is taken for the noise.
SearchRule:
.smooth: Length of the moving mean in which air is first looked for.
.coarse_share: Air where that mean is under this share of the usual standing force.
.standing_from: Samples above this share of the record's range count as standing for that.
.back_for: Force is back on the ground when it stays over the threshold this long.
.stray_multiple: Readings in the air more standard deviations off do not move the zero line.
.quiet_tolerance: The latest window this many times as restless as the quietest is weighed.
.sway_block: Length of the pieces in which sway counts towards the weighing's error.
.least_scatter: Least standard deviation of the weighing, share of body weight, when the onset is looked for.
.away_for: The jump has begun when force stays away from body weight this long.
StandRule:
.least: No shorter stretch is looked at as a stand.
.noise_share: The record is smoothed until its noise is this share of body weight.
.plain_band: Up to this share of body weight about a stand the usual time back to the onset does.
.flight_speed_error_m_s: Standard error of the take-off speed by half the flight, metres a second.
.misfit_over: A stand is none that is so many standard errors off what the flight next to it tells.
.level_share: Stands of one body differ by this share of its weight.
.differ_over: From so many standard errors two stands do not weigh the same body.
TrustRule:
.posture_error: Standard error of a height for landing otherwise than taking off.
.contradict_over: Impulse and flight contradict each other from so many of their joint errors.
.impulse_error_over: A height by impulse with a larger error is not written into an athlete's file.
.bent_landing_up_to: Landing with bent legs makes the flight's height read up to so much more.
.push_off_from: A shorter push-off makes the rate of the record doubtful.
.push_off_to: A longer push-off makes the rate of the record doubtful.
PlatformRule:
.airborne_under: Force under which the feet are off the platform.
.noise_multiple: More, where so many standard deviations of the noise in flight ask for it.
.shortest_flight: A shorter gap in the force is no flight.
.edges: How the instants of zero force are told, between the samples.
.search: How standing, push and flight are found.
.stand: Which quiet stretches of a record tell body weight.
.trust: Which height is believed where impulse and flight contradict each other.
.unit_doubted_under: A record whose force stays under it is in another unit.
.clipped_over: Force that rises above so many body weights is looked at for a cut-off top.
.clipped_samples: So many equal highest samples in a row are a ceiling, not a peak.
.landing_whole: Time into the landing in which no sample may be missing.
.short_weighing_share: A weighing shorter than this share of the usual is judged with what stands around it.
.zeroed_share: Share of the samples in the air that are exactly zero where small readings were set to zero.
.zeroed_over: They were, where the least reading that was kept is above it.
.least_jumps_for_sides: Jumps whose own scatter tells the error of a side's share.
.longest_flight: A longer one is a step off the platform.
.shortest_contact: A shorter contact between two stretches of air is a knock, no contact.
.weighing: Usual time of standing still; a shorter one is warned of.
.shortest_weighing: A shorter one is refused.
.noisy_over: Scatter while standing, share of body weight, from which it is warned of.
.refuse_noise_over: Scatter while standing, share of body weight, from which it is refused.
.onset_multiple: The jump has begun when force leaves body weight by so many standard deviations.
.onset_back: Its onset is taken so much earlier.
.propulsion_over_m_s: Upward speed from which the push counts as upward, metres a second.
.longest_movement: Longest time from onset to take-off.
.shortest_movement: Shortest time from onset to take-off; no standing is looked for later.
.settled_after: Time after landing before which nobody stands still.
.longest_rebound_contact: A shorter contact between two flights is a rebound.
.slowest_take_off_m_s: An impulse that gives a lower take-off speed is no jump from a stand, metres a second.
.missing_over: A record that lacks more of its samples, as a share, is refused.
.dip_over: A held-squat jump that unweights by more (share of body weight) had a dip.
.step_over: Difference between the halves of the weighing (share of body weight) that says stepping or leaning.
.one_foot_under: A platform that carries less of the weight, as a share, has no foot on it.
.drift_N_s: Standard uncertainty of the zero line's drift, newtons a second.
.hidden_zero_error: Standard error of a zero line that was hidden when small readings were set to zero.
.loaded_zero_over: A zero line so far below zero, as a share of body weight, was set with the body on the platform.
.one_platform_over: Push on one platform and landing on the other, each with a larger share, are a jump between them.
.given_mass_error: Standard error of a body mass that is given, not weighed on the platform.
.mass_differs_over: A body mass on the platform that differs by more from the athlete's file, as a share, is warned of.
.disagree_over: A landing, or standing after it, that fits the rest worse than by so many standard errors is not used.
.lowest_rate_Hz: Records of a lower rate are refused, hertz.
.usual_rate_Hz: Records of a lower rate are warned of, hertz.
.limits_source: Where the limits come from.
"""
