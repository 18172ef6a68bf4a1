"""What each field of our files means, in a sentence, for editors and for ``jumpblock library schema``."""

from __future__ import annotations

from planner.files.schema_words_benchmarks import BENCHMARKS_AND_REVIEW
from planner.files.schema_words_cards import CARD_LAYOUT
from planner.files.schema_words_gap import GAP
from planner.files.schema_words_plan import TEMPLATE_AND_BLOCK

# A limits file holds parts of a template: their fields mean what they mean there.
SAYS_THE_SAME = {"Limits": "Template", "limits": "Template", "LevelLimits": "LevelPlan", "SchemeHead": "Scheme"}


def describe(model: str, field: str, fallback: bool = True) -> str:
    """The words for a field of a model; with ``fallback`` also those that a field of this name has everywhere."""
    own = FIELDS.get(f"{model}.{field}", "") or FIELDS.get(f"{SAYS_THE_SAME.get(model, model)}.{field}", "")
    return own or (FIELDS.get(field, "") if fallback else "")


def _read(text: str) -> dict[str, str]:
    """Lines ``Model.field: words``; a line ``Model:`` gives the model for the lines ``.field: words`` below it."""
    found: dict[str, str] = {}
    model = ""
    for line in text.strip().splitlines():
        name, _, words = line.strip().partition(":")
        if not words:
            model = name
        else:
            found[f"{model}{name}" if name.startswith(".") else name] = words.strip()
    return found


_COMMON_LIBRARY_ATHLETE = """
file: What this file is, and the version of its format. Always the first field.
id: Small letters, digits and hyphens; the name other files use.
name: The name that is printed.
about: A remark for whoever reads the file.
source: Where the figures come from: a published source, or their standing.
note: A remark; nothing is read from it.
date: Year-month-day.
level: Training level it is meant for.
kind: Which sort it is; the other fields depend on it.
cues: One to three short cues, printed on the card.
cautions: What to look out for, printed on the card.
method: How it was measured, and with what.
protocol: How it was done, so that the retest can be done alike.
take_off: Which leg or legs jump.
run_up: Whether it was done off a run-up.
arms: On the hips (or holding a bar), or free to swing.
trials: Every trial; all of them count.
left: Of the left leg.
right: Of the right leg.
side: Left or right; left out, both at once or the middle.
unit: The unit of the figure.
equipment: What it needs, by the ids of equipment.yaml.
status: What came of it.
contacts: Landings, each counted once whether on one foot or both.
medium: Contacts of the medium tier.
high: Contacts of the high tier.
low: Contacts of the low tier.
sprints: Sprint efforts.
minutes: Length in minutes.
day: Weekday.
weeks: One entry a week, in order.
days: Number of training days.

MovementFile:
.family: The family of all movements in this file; a session takes one movement of a family.
.movements: The movements, easiest first where that makes sense.
EquipmentFile:
.equipment: Every word for equipment that movements and athletes may use.
Movement:
.name: As printed on the card; at most 40 characters fit one line.
.kind: lift and hold give working sets, jump gives contacts, sprint gives efforts and metres, skill is practice.
.patterns: What it covers of the week's required patterns.
.part: The part of a session it is done in; the order of parts is the template's.
.qualities: What it trains, 0 to 3. The template says what part of a set a tag counts; 3 is in full.
.stress: What it loads, 0 to 3 a joint, loaded as it is prescribed. Points rise steeply: 1, 2, 4.
.legs: Both at once, one at a time, or alternating within a set.
.jump: What kind of jump it is; without it no contact is counted.
.sprint: What kind of sprint it is.
.runway: Straight floor that the run-up or the bounds take; sprints say their own distance.
.take_off: Only for athletes whose own jump takes off so; left out, for all.
.eccentric_hamstring: true if it loads the hamstrings long (Nordic curls): kept days apart from sprints.
.heavy_hinge: true for heavy hinges: kept days apart from sprints.
.level: The lowest level that it is planned for.
.requires: Lifts that must be strong enough first, such as back-squat >= 1.5 body mass.
.easier: The id of the next easier movement.
.harder: The id of the next harder movement.
.dose: How a set of it is given.
.source: Where the tags come from; say common practice, no source where there is none.
Dose:
.scheme: The template's loading wave that gives sets, reps, percent and effort week by week.
.load: percent of a reference lift, reserve (the athlete finds the load), or none (body weight).
.of: The reference lift whose one-repetition maximum the percentage is of.
.ratio: This movement's own maximum as a share of the reference lift's.
.body_mass_share: Share of body mass lifted along with the load: 0 for a bar on the back, 1 for a one-leg squat.
.implement: What the load is made of, so that it is rounded to what the gym has.
.set_time: Time of one set, of one leg where legs are worked apart.
.rest: Rest after a set.
Jump:
.direction: Up, forward or sideways.
.approach: From a stand, as a rebound, after a few steps, or off the full run-up.
.tier: How hard the landings are; each tier has its own weekly budget.
.contacts_per_rep: Landings in one rep.
.effort_percent: Share of full effort.
.take_off_leg_only: true if it is done on the take-off leg alone, as approach jumps are.
.drop: Height dropped from.
.height: Height of the box or hurdle.
.rebound: true if it leaves the ground again at once after the drop.
Sprint:
.sort: acceleration from a stand, flying after a run-up, resisted, or tempo.
.distance: Timed distance of one effort.
.fly_in: Run-up before the timed part; it takes runway and is no volume.
.speed_percent: Share of top speed.
EquipmentKind:
.name: As printed where a movement is shown.

Athlete:
.birth_date: Year-month-day; limits for the young depend on it.
.sex: For remarks on what tests miss; no budget depends on it.
.sport: In the coach's words.
.body_mass: Body mass with its unit.
.stature: Height standing, without shoes.
.standing_reach: Highest touch with one hand, heels on the floor.
.tip_toe_reach: Highest touch on tip-toe; the difference is the heel rise that a touch test hides.
.approach: The run-up of the target jump.
.level: The coach's word for how trained this athlete is.
.training_age_years: Years of regular strength and jump training, for the coach's own use; nothing is planned from it.
.recent_load: A usual week of the last four, all sport included; week 1 grows from here.
.training: Training days with their minutes, and days away.
.equipment: What the gym has.
.practices: Practices of the sport, weekly or dated.
.matches: Matches, weekly or dated.
.landing: Whether landings hold: knee over foot, quiet, balanced. Not yet: no high tier.
.joints: Joints with pain now or a history.
.stature_records: Earlier heights, to see a growth spurt.
.target: The jump aimed at.
.bans: Movements never to be planned.
.weaker_leg: extra-set gives a leg that tests weaker one set more of its one-leg lifts; same, or left out, does not.
.pins: Movements wanted in the block.
.allow: The coach's word over a gate; never over limits for youth or pain.
.template: The template's name, or a path to one.
.print_as: Units and paper of this athlete's cards.
.tests: Every test with every trial.
Approach:
.steps: Steps of the run-up; 0 from a stand.
.line: Straight or curved.
.landing: On both feet, or on one.
RecentLoad:
.weekly_contacts: Landings a week.
.weekly_high_contacts: Of these, the maximal ones; leave it out where not known.
.weekly_sprints: Sprint efforts a week.
.weekly_working_sets: Working sets a week, warm-ups left out.
Training:
.days: The weekdays of training in the gym.
.away: Dates without training.
TrainingDay:
.minutes: Minutes there are, warm-up included.
.own_work_minutes: Of these, minutes kept for the athlete's own work.
Fixture:
.day: Weekday, where it is every week.
.date: Date, where it is once.
.hardness: A practice is a hard day only when hard.
.contacts: Landings in it.
Equipment:
.items: Ids of equipment.yaml.
.bar: Mass of the empty bar.
.plates: One entry for each pair of plates.
.dumbbells: One entry for each pair of dumbbells, the mass of one.
.runway: Longest straight floor there is.
JointState:
.joint: Which joint.
.pain: Pain now, 0 to 10, while loading it.
.worse_next_morning: true if it is worse the morning after: stop, and refer to a clinician.
.history: What was there before, in the coach's words.
Target:
.touch: Mark to touch.
.rise: Rise of the centre of mass after take-off.
.method: How the target's height is taken; it must be the test's own.
.by: Date it is wanted by.
Pin:
.movement: Id of the movement.
.day: Weekday it is wanted on; left out, any.
Allowance:
.rule: The rule lifted.
.movement: The movement opened.
.reason: Why, in the coach's words.
StatureRecord:
.stature: Height on that date.
Preferences.mass: Unit of masses on cards.
Preferences.length: Unit of lengths on cards.
Preferences.paper: Paper of the cards.
LiftTest:
.movement: Id of the lift.
.load: Load on the bar or in the hands.
.reps: Reps done.
.reps_in_reserve: Reps that were left.
.side: The leg, for one-leg lifts; left out, both at once.
ContactTimeTest:
.touch_down_speed_m_s: How fast the body still falls as the foot lands, metres a second; left out, a range is used.
.touch_down_speed_error_m_s: Its standard error; left out, that of the benchmarks.
DropJumpTrial:
.contact: Time on the ground.
.flight: Time in the air.
DropJumpTest:
.drop: Height of the box.
HeelRaiseTest:
.form: strict (straight knee, full height, metronome) or free.
.left: Raises of the left leg.
.right: Raises of the right leg.
FlyingSprintTest:
.distance: Timed distance.
VideoTrial:
.touch_down: Number of the first frame on the ground.
.take_off: Number of the first frame off the ground.
.landing: Number of the first frame back on the ground.
VideoFramesTest:
.drop: Height of the box, where it was a drop jump.
.frame_rate: Rate of filming, such as 240 /s, not of playing back.
.touch_down_speed_m_s: How fast the body still falls as the foot lands, metres a second; left out, a range is used.
.touch_down_speed_error_m_s: Its standard error; left out, that of the benchmarks.
MatTrial:
.contact: Time on the mat before the jump, where it was landed on.
.flight: Time in the air.
LoadedSet:
.load: Load on the shoulders or in the hands; 0 kg for the body alone.
.flights: Flight time of each jump.
LoadedJumpTest:
.form: From a held squat, or with a dip.
.push_off: Distance from the lowest point to take-off.
.sets: One entry a load.
SprintSplitsTest:
.distances: Where the times were taken, each from the start.
.trials: A row of times for each trial.
IsometricForceTest:
.position: Position of the pull or push.
.includes_body_weight: true as a platform under the feet reads it.
PlatformTrial:
.rise_by_impulse: Rise from the impulse.
.rise_by_impulse_error: One standard error of it.
.flight: Time in the air.
.flight_error: One standard error of it.
.contact: Time on the ground, of drop jumps.
.time_to_take_off: From the first movement to take-off.
.peak_force: Highest force.
.mean_propulsion_force: Mean force on the way up.
.push_off: Rise of the body from its lowest point to take-off; for a jump from a stand the force gap takes it.
.left_share: Share of the left leg in it, on two platforms.
.doubt: Why one of its two heights is not believed and left out.
ForcePlatformTest:
.jump: Which jump it was.
.drop: Height of the box, for a drop jump.

Preferences.dates: How dates are printed.
TrainingDay.time: Time of day it begins.
"""

FIELDS = _read(_COMMON_LIBRARY_ATHLETE + TEMPLATE_AND_BLOCK + GAP + BENCHMARKS_AND_REVIEW + CARD_LAYOUT)
