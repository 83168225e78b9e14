"""Reasons: a code to test for, the sentence that says it, and the numbers in it."""

from collections.abc import Callable
from dataclasses import dataclass, field

SENTENCES = {
    # the rule, and what the model makes of it
    "trade-rule": (
        "The trade's rule for {symptom} in the middle of a corner: soften the {end} bar or stiffen the "
        "{other} bar (common practice)."
    ),
    "model-agrees": (
        "The model agrees: front limit {front_before} to {front_after}, rear limit {rear_before} to "
        "{rear_after}; the gap (front less rear) goes from {before} to {after}."
    ),
    "model-agrees-by-steer": (
        "The model agrees below the limit: at {near} the extra steer goes from {before} to {after}. At the "
        "limit itself it can hardly be told: the gap moves by {gap}."
    ),
    "takes-more-load-transfer": (
        "Stiffer at the {end}: the {end} takes more of the load transfer and the {other} less, so the "
        "{other} tyres share their load more evenly and the {other} gains on the {end}. Front share of the "
        "overturning moment {share_before} to {share_after}."
    ),
    "takes-less-load-transfer": (
        "Softer at the {end}: the {end} takes less of the load transfer and the {other} more, so the {end} "
        "tyres share their load more evenly and the {end} gains on the {other}. Front share of the "
        "overturning moment {share_before} to {share_after}."
    ),
    "only-roll-counts": (
        "An inside wheel is up at the limit. From there the bars share out nothing; what still counts is "
        "the roll, {before} to {after}."
    ),
    "flatter-body": (
        "It also rolls less, so the tyres lose less to camber: even the {end}'s own limit rises by {gain}."
    ),
    "can-bear-more": (
        "The car can bear more stiffness: it rolls {roll}, and we call a car stiff below {stiff}; the "
        "inside {end} wheel would keep {inside} at the limit."
    ),
    "already-stiff": "The car is stiff already: it rolls {roll}, and we call a car stiff below {stiff}.",
    "inside-wheel-too-light": (
        "Stiffer at the {end} would leave its inside wheel {inside} at the limit; we want at least {wanted} "
        "there."
    ),
    "costs-limit": (
        "Stiffer at the {end} leaves the car a limit of {stiffer}, softer at the {other} {softer}."
    ),
    "so-stiffen": "So stiffen the {end} before softening the {other}.",
    "so-soften": "So soften the {end} rather than stiffen the {other}.",
    "only-this-end": "The {other} end has nothing to offer, so it is the {end} or nothing.",
    # how many holes
    "go-one-first": (
        "It takes {steps} steps to bring the two limits closest. Go one first if you want to feel its "
        "direction."
    ),
    "one-step-hard-to-feel": (
        "One step alone moves the gap by {gap} and the steer near the limit by {steer}: hard to feel or to "
        "measure."
    ),
    "one-step-is-too-much": (
        "It carries the car past equal limits by {over}: a coarse step. Measure before you keep it."
    ),
    "tail-goes-sooner": (
        "The rear gives up first already, and this widens it: the gap goes from {before} to {after}. Be "
        "ready for the tail to go."
    ),
    "rear-gives-up-first": (
        "After it the rear gives up first ({rear} against {front} at the front). Be ready for the tail to "
        "go."
    ),
    "lowers-the-limit": "By the sheet it lowers the car's limit from {before} to {after}.",
    "first-step-alone": "The same end, the first step alone.",
    "one-step-more": "The same end, one step more, should one not be enough.",
    "brings-wheel-down": "At the limit the inside {end} wheel is off the ground; this brings it down again.",
    "lifts-inside-wheel": (
        "At the limit it lifts the inside {end} wheel. From there a stiffer {end} bar does no more."
    ),
    "chassis-twists": (
        "The chassis twists: only {part} of the change in load transfer comes through, against a rigid "
        "chassis."
    ),
    # why a move is left out
    "no-bar": "There is no bar at the {end}.",
    "nothing-left": "Nothing left at the {end}: no {direction} position. What about the other end?",
    "would-roll-over": "With the {end} {direction} the car would roll over before it slides.",
    "inside-wheel-up": (
        "The inside {end} wheel is off the ground at the limit. The {end} bar has no load left to take from "
        "it: all the way stiffer moves the gap by {gap}. Softer is the other direction."
    ),
    "inside-wheel-stays-up": (
        "The inside {end} wheel is off the ground at the limit, and no free position brings it down far "
        "enough to matter: all the way softer moves the gap by {gap}."
    ),
    "other-inside-wheel-up": (
        "The inside {other} wheel is off the ground at the limit, so the {end} takes all further load "
        "whatever its own bar does: all the way {direction} moves the gap by {gap}."
    ),
    "over-soft": (
        "Practice and model part at the {end}. The car is so soft there that the tyres lose more to camber "
        "as the body rolls than to uneven load: {step} more of bar at the {end} would raise its own "
        "limit by {gain}. Softening it, as the rule says, costs grip at that end."
    ),
    "reversed": (
        "Practice and model part at the {end}. By the rule {direction} helps here; in the model it moves "
        "the gap (front limit less rear limit) from {before} to {after} and the steer near the limit from "
        "{steer_before} to {steer_after}, the wrong way: {cause}."
    ),
    "costs-both-ends": (
        "It would take grip from both ends: front limit {front_before} to {front_after}, rear limit "
        "{rear_before} to {rear_after}. The balance would move only because one end loses more."
    ),
    "bar-too-weak": (
        "The {end} bar is too weak to matter here. It moves the gap by {gap} and the steer near the limit "
        "by {steer}; below {limit_felt} and {steer_felt} nobody can tell. It gives {bar} beside {springs} "
        "from the springs; with the tyres in series {total} in all."
    ),
    "tyres-hardly-mind": (
        "The {end} bar can still move load (front share of the overturning moment {share_before} to "
        "{share_after}), but the tyres on the sheet hardly mind: the gap moves by {gap} and the steer near "
        "the limit by {steer}; below {limit_felt} and {steer_felt} nobody can tell. Look at the tyres, their "
        "pressures and camber."
    ),
    "chassis-swallows-it": (
        "The chassis twists too much: only {part} of what the {end} bar does comes through. The gap would "
        "move by {gap}; with a rigid chassis by {rigid}. Stiffen the chassis first."
    ),
    # the driver and the sheet
    "sheet-disagrees": (
        "The driver says the {end} slides; the sheet says the {other} gives up first (front {front}, rear "
        "{rear}). Believe the driver about the direction. Check the sheet, tyres, pressures, temperatures "
        "and wings: something there is not as we think."
    ),
    "coasting-disagrees": (
        "The driver says the {end} slides. Coasting, the sheet says the {other} gives up first (front "
        "{front}, rear {rear}); with the speed held it says what the driver says, as below. So the two need "
        "not be at odds."
    ),
    "sheet-says-even": (
        "By the sheet both ends give up nearly together (front {front}, rear {rear}). The driver decides "
        "the direction."
    ),
    "one-step-only": "So one step only, then measure.",
    "drive-turns-it": (
        "The limits with no drive, coasting, are front {front_coasting}, rear {rear_coasting}. Count the "
        "force that holds the speed, as at a steady throttle, and the {end} gives up first, not the {other}: "
        "front {front_driven}, rear {rear_driven}. {says}. So measure first: steer against lateral "
        "acceleration at a steady throttle. Then make the one change that the driver and the measurement "
        "agree on."
    ),
    "drive-and-change": (
        "With that force counted, the {end} bar {direction} takes the gap (front less rear) from "
        "{gap_before} to {gap_after} and the car's limit from {before} to {after}."
    ),
    # bump stops
    "on-bump-stop": (
        "The outside {end} wheel is on its bump stop {where}. It uses {used} of travel at {near} and "
        "{at_limit} at the limit; the stop comes in at {there}. From there the stop loads the {end} as a "
        "stiffer spring would."
    ),
    "bump-stop-gap": "The gap (front limit less rear) is {gap}; without bump stops it would be {without}.",
    "stop-first": (
        "So {part} of the gap comes from the stop. Look at the travel and the bump stop first: ride height, "
        "springs, length of the stop. Then ask again."
    ),
    "travel-used-up": (
        "The outside {end} wheel uses up its bump travel {where}: it wants {used} at {near} and {at_limit} "
        "at the limit, and there is {there}. The sheet gives no bump_stop_rate, so these figures leave the "
        "stop out; a real car meets it and loads the {end} more. Measure the travel and the stop first."
    ),
    "meets-bump-stop": (
        "It brings the outside {end} wheel to its bump stop: it wants {at_limit} of travel at the limit, and "
        "there is {there}."
    ),
    # the whole car
    "raise-roll-stiffness": (
        "First raise the roll stiffness of the whole car: springs, or both bars. It rolls {roll} (class "
        "figures: {kind}), and {step} more of bar at one end moves that end's own limit by {front} at the "
        "front and {rear} at the rear. With both ends' springs {springs} stiffer the car's limit goes from "
        "{before} to {after}. Then balance it with a bar."
    ),
    "both-bars-stiffer": (
        "With both bars at their stiffest, front {front_hole} and rear {rear_hole}, the car's limit goes "
        "from {before} to {after}."
    ),
    "not-the-bars": (
        "No free position of either bar helps here. Look at the springs, the tyres and their pressures, the "
        "camber, or another bar."
    ),
    "rolls-over": (
        "This car rolls over at {rollover}, before its tyres slide. No bar setting mends that, so there is "
        "no set-up advice. Do not corner it hard: lower it or widen the track, and check the sheet."
    ),
    "leans-inward": (
        "This body leans into the corner, {roll}: by the sheet the sprung mass lies {below} below the roll "
        "axis. A stiffer bar then takes load transfer from its own end, so the trade's rule does not hold, "
        "and there is no set-up advice. Hardly any car is built so: check cg_height and both "
        "roll_centre_height."
    ),
    "near-rolling-over": (
        "It would roll over at {rollover}, close to its limit of {limit}. Add no grip and no height."
    ),
    # entry and exit
    "dampers-first": (
        "Dampers come before a bar. They carry load only while the roll changes (C times rate of roll over "
        "track); a bar carries load as long as the car leans. A bar change for the {phase} would upset the "
        "middle too."
    ),
    "damper-numbers": (
        "Say the corner builds up to {near} in {time} (eased in and out), holds, and lets go in {time}. On "
        "the way in the dampers carry at the most {front_in} a wheel at the front and {rear_in} at the rear; "
        "on the way out {front_out} and {rear_out}; in the settled middle {front_mid} and {rear_mid}."
    ),
    "no-damper-numbers": "The sheet gives no dampers at {ends}, so their part cannot be put in newtons here.",
    "rolls-over-on-the-way-in": (
        "Brought to {near} in {time}, this car rolls over before it settles. Do not turn it in hard; the "
        "dampers' part is not given."
    ),
    "roll-not-followed": (
        "By the sheet this body swings, or its dampers act, far too fast to be followed in time, so the "
        "dampers' part is not given. Check roll_inertia, chassis_torsion and the dampers' rates."
    ),
    "damper-direction": (
        "While the car takes its roll, a stiffer damper adds load transfer at its end as a stiffer bar "
        "would. For {symptom} there: less damping in roll at the {end}, or more at the {other}."
    ),
    "damper-direction-exit": (
        "While the car gives its roll back, a damper pushes the other way from a bar: a stiffer one takes "
        "load transfer from its end. For {symptom} there: more damping in roll at the {end}, or less at the "
        "{other}."
    ),
    "damper-size": (
        "For size: {step} {change} damping at the {end} changes its part by {part} a wheel at the most."
    ),
    "damper-size-hole": (
        "Beside it one step of a bar, {move_end} {direction}, moves {hole} a wheel at the {end} at {near}, "
        "for as long as the car leans."
    ),
    "same-in-the-middle": (
        "If the car does it in the middle of the corner too, cure that first and ask for the middle."
    ),
    "open-differential": (
        "If your differential is open, it gives both driven wheels the same, so the lightly loaded inside "
        "{end} wheel limits the drive. Say the power goes on at {near}, {part} of the limit with drive. At "
        "the slip angle of coasting that wheel begins to spin at {begins} of drive. Let the car slip more: "
        "the outside wheel takes over side force, and the car passes {most} at most, still holding the "
        "corner. Load that moves to the rear under power is not counted here."
    ),
    "inside-driven-wheel-spent": (
        "At {near} the inside {end} wheel has no grip to spare for drive. If your differential is open, it "
        "begins to spin at once, at the slip angle of coasting. Let the car slip more: the outside wheel "
        "takes over side force, and the car passes {most} at the most, still holding the corner. "
        "Load that moves to the rear under power is not counted here."
    ),
    "inside-driven-wheel-up": (
        "At {near} the inside {end} wheel is off the ground: if your differential is open, it passes no "
        "drive at all."
    ),
    "fore-and-aft": (
        "Left out here: under power load moves from the front wheels to the rear (fore-and-aft load "
        "transfer). That may itself be the reason why a car understeers under power."
    ),
    "power-takes-grip": (
        "Traction first: the power itself takes grip from the rear. With just the force that holds the speed "
        "the rear limit is {driven}, coasting {coasting}; the gap (front less rear) goes from {before} to "
        "{after}. Less throttle, or later. After that a bar that gives the driven wheels more: see what each "
        "change does to the drive."
    ),
    "costs-traction": (
        "It costs traction: the most drive at {near} goes from {before} to {after} (open differential)."
    ),
    "keeps-traction": (
        "It gives traction: the most drive at {near} goes from {before} to {after} (open differential)."
    ),
}

Shown = Callable[[float, str], str]


@dataclass(frozen=True)
class Reason:
    """One reason for or against a change."""

    code: str
    end: str | None = None
    words: dict[str, str] = field(default_factory=dict)
    numbers: dict[str, tuple] = field(default_factory=dict)  # name to (SI, or a pair of them, and its kind)

    def sentence(self, show: Shown) -> str:
        """The sentence with its numbers, ``show(value, kind)`` turning each into text."""
        other = {"front": "rear", "rear": "front"}.get(self.end)
        return SENTENCES[self.code].format(
            end=self.end,
            other=other,
            **self.words,
            **{name: show(value, kind) for name, (value, kind) in self.numbers.items()},
        )
