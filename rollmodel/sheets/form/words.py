"""What each field of a car sheet is, in one plain sentence, and how somebody finds it.

Where no way is given here, the sheet's own remark on where the number comes from serves.
"""

from __future__ import annotations

from dataclasses import dataclass

from rollmodel.car import SHEAR_MODULUS, YOUNGS_MODULUS, Blade, Tyre


@dataclass(frozen=True)
class Words:
    """One field in the learner's words."""

    label: str  # what its box is called; an end's name goes before it
    what: str  # one sentence
    how: str = ""
    left_out: str = ""  # how the sentence "May be left out" goes on: when, or what is taken then


_JACKING = ("Raise one wheel in steps of 10 mm and measure both travels; divide the {part} travel by the "
            "wheel travel.")
_STEEL = ("Steel maker's sheet. Is the bar's rate known from a bench? Lesson 11 and rollmodel measure work "
          "out the figure that gives it.")
_RIGID = "; then rigid"
_STOPS = "; then the stop is never met"
_BOTH = ", together with the other box of this damper"

WORDS = {
    ("", "title"): Words("name of the car", "The lessons call the car by this name.",
                         left_out="; then the file's name"),
    ("", "drive"): Words("driven wheels", "The wheels that the engine drives."),
    ("", "mass"): Words("mass", "The whole car as it corners, with the driver in it.",
                        "Four corner scales, driver aboard, half fuel; add the four up."),
    ("", "front_weight_share"): Words("front weight share", "The part of the weight on the two front wheels.",
                                      "Corner scales: the front pair over all four."),
    ("", "wheelbase"): Words("wheelbase", "From the front axle to the rear axle.",
                             "Tape measure, hub to hub, on both sides; take the mean."),
    ("", "cg_height"): Words("centre of gravity height", "How high above the ground the car's weight sits.",
                             "Corner scales with one end raised, then the tilt formula. It is the least "
                             "certain number of all, so say so: 470 mm ± 20 mm."),
    ("", "chassis_torsion"): Words("chassis torsional stiffness", "How hard the body is to twist from end to "
                                   "end.", "Twist rig, or the maker's figure.", _RIGID),
    ("", "roll_inertia"): Words("roll inertia", "How hard the sprung mass is to start rolling.",
                                "Swing test.", "; then estimated"),
    ("", "note"): Words("note", "Anything worth knowing about this sheet: who measured, when, on what."),
    ("tyre", "curve"): Words("tyre curve", "The shape of side force against slip; the first is the course's "
                             "road tyre."),
    ("tyre", "grip_scale"): Words("grip scale", "How much more the tyre holds than that curve.",
                                  "Skidpad: measured lateral acceleration over the model's.",
                                  f"; then {Tyre.grip_scale:g}"),
    ("tyre", "peak_grip"): Words("peak grip", "Side force over load that a hardly loaded tyre would give.",
                                 "Tyre test."),
    ("tyre", "grip_drop_per_kN"): Words("grip drop", "How much of that grip each bit of load takes away.",
                                        "Tyre test; a road tyre loses about 0.03 per kN."),
    ("tyre", "cornering_stiffness"): Words("cornering stiffness", "Side force of one tyre for each degree of "
                                           "slip, at small slip.", "Tyre test."),
    ("axle", "track"): Words("track", "From the middle of one tread to the middle of the other.",
                             "Tape measure, on the ground."),
    ("axle", "unsprung_mass"): Words("unsprung mass", "What moves with the two wheels: wheels, hubs, brakes, "
                                     "half of arms and shafts.", "Scales, parts off the car, both sides "
                                     "together."),
    ("axle", "unsprung_cg_height"): Words("unsprung mass height", "How high those parts sit above the "
                                          "ground.", "Tape measure; about the hub's height."),
    ("axle", "roll_centre_height"): Words("roll centre height", "Where side force goes from wheels to body "
                                          "without the springs, above the ground.",
                                          "Drawn from the pick-up points at ride height. Below ground is "
                                          "negative."),
    ("axle", "spring_rate"): Words("spring rate", "Force for each millimetre or inch that one spring is "
                                   "squeezed, at the spring.", "Spring tester, or the number painted on it."),
    ("axle", "spring_motion_ratio"): Words("spring motion ratio", "Spring travel over wheel travel, mostly "
                                           "below 1.", _JACKING.format(part="spring")),
    ("axle", "tyre_vertical_rate"): Words("tyre vertical rate", "The tyre as a spring under load.",
                                          "Load plate, at working pressure.", _RIGID),
    ("axle", "bump_travel"): Words("bump travel", "How far the wheel can rise before it meets the bump "
                                   "stop.", "Tape measure at ride height; bring the gap to the wheel.",
                                   f" where no bump stop rate is given{_STOPS}"),
    ("axle", "bump_stop_rate"): Words("bump stop rate", "What the stop adds, at the wheel, once it is met.",
                                      "Spring tester; needs the bump travel too.", _STOPS),
    ("axle", "camber"): Words("camber", "Lean of the wheel at rest; negative leans in at the top.",
                              "Camber gauge on level ground.", "; then none"),
    ("axle", "camber_recovery"): Words("camber recovery", "The part of the body's roll that the wheels do "
                                       "not lean with; 0.5 is half.", "Camber gauge, body rolled.",
                                       "; then roll costs no camber"),
    ("damper", "rate"): Words("damper rate", "Force for each bit of speed, at the damper.",
                              "Damper tester, mean of both ways near 0.1 m/s.", _BOTH),
    ("damper", "motion_ratio"): Words("damper motion ratio", "Damper travel over wheel travel.",
                                      _JACKING.format(part="damper"), _BOTH),
    ("bar", "kind"): Words("anti-roll bar", "Which bar this end has. Say so too where there is none.",
                           "Is the rate known for every hole, from a bench or a table? It may stand in "
                           "place of the sizes. For one hole alone give the sizes; lesson 11, step 5, "
                           "then fits the steel's stiffness to it."),
    ("bar", "rates"): Words("bar rates", "The rate at one link, square to the arm, with the other link held, "
                            "for each hole, the lowest (softest) first, commas between. In roll each link "
                            "feels twice as much.",
                            "Bench, as in lesson 11, step 5, or the maker's table. Without the sizes "
                            "lesson 2 takes a training car, and nothing is said of the bar's stress."),
    ("bar", "outer_diameter"): Words("bar diameter", "Across the middle part of the bar, outside.",
                                     "Calliper, paint scraped off. Mind it: the rate goes with its fourth "
                                     "power."),
    ("bar", "wall"): Words("bar wall", "How thick a tube's wall is.", "Ultrasonic gauge, or a cut end.",
                           "; then the bar is solid"),
    ("bar", "centre_length"): Words("bar length between the arms", "The straight part that twists.",
                                    "Tape measure, arm to arm."),
    ("bar", "arms"): Words("bar arms", "Whether the arms bend: same section when they are bent from the bar "
                           "itself, rigid when they are stout.", "Look."),
    ("bar", "holes"): Words("link holes", "The lever of each hole, the longest (softest) first, commas "
                            "between.", "Tape measure, square from the bar's axis to the link."),
    ("bar", "hole"): Words("place in use", "Which of them the link or lever is in now, counted from the "
                           "softest.", "Look.", " where there is a single one"),
    ("bar", "link_motion_ratio"): Words("link motion ratio", "Travel of the link's bar end over wheel "
                                        "travel.", _JACKING.format(part="link")),
    ("bar", "arm_length"): Words("arm length", "Along an arm that is swept, not square to the bar.",
                                 "Tape measure; one value belongs to the first hole.",
                                 "; then the arm stands square"),
    ("bar", "arm_sweep"): Words("arm sweep", "Which way swept arms point, seen from the bar.", "Look.",
                                "; then outward"),
    ("bar", "support_spacing"): Words("bushing spacing", "Between the bushings, where they sit inside the "
                                      "arms.", "Tape measure.", "; then they sit at the arms"),
    ("bar", "bushing_rate"): Words("bushing rate", "Softness of the bushings as felt at one link.",
                                   "Spring tester.", _RIGID),
    ("bar", "link_rate"): Words("link rate", "Softness of one link with its rubber.", "Spring tester.",
                                _RIGID),
    ("bar", "link_lean_at_arm"): Words("link lean at the arm", "How far the link is from square to the arm.",
                                       "Protractor.", "; then square to it"),
    ("bar", "link_lean_at_pickup"): Words("link lean at the pick-up", "How far the link is from the line in "
                                          "which its pick-up travels.", "Protractor.",
                                          "; then along it"),
    ("bar", "shear_modulus"): Words("shear modulus", "How hard the steel is to twist.", _STEEL,
                                    f"; then {SHEAR_MODULUS / 1e9:g} GPa"),
    ("bar", "youngs_modulus"): Words("Young's modulus", "How hard the steel is to bend.", _STEEL,
                                     f"; then {YOUNGS_MODULUS / 1e9:g} GPa"),
    ("blade", "length"): Words("blade length", "The blade's free length, from the bar's axis to the link.",
                               "Tape measure."),
    ("blade", "width"): Words("blade width", "The long side of the blade's section.", "Calliper."),
    ("blade", "thickness"): Words("blade thickness", "The short side of the blade's section.", "Calliper."),
    ("blade", "angles"): Words("blade angles", "Each notch, the softest first, commas between: 0 deg lies "
                               "flat, 90 deg stands on edge.", "Protractor."),
    ("blade", "angle_from"): Words("angles counted from", "From flat, or from on edge.", "Look.",
                                    "; then from flat if they rise, from on edge if they fall"),
    ("blade", "tip"): Words("blade tip", "Whether the tip may move sideways.", "Look.",
                             f"; then {Blade.tip}"),
    ("blade", "lever"): Words("blade lever", "Square from the bar's axis to the link, where it is not the "
                              "blade's length.", "Tape measure.", "; then that length"),
}
