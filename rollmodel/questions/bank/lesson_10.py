"""Lesson 10, choosing the change: questions with a number."""

from rollmodel.car import GRAVITY
from rollmodel.physics import axle, stiffness
from rollmodel.physics.bar import surface_shear_stress, torsion_rate_one_end_held
from rollmodel.physics.roll import roll_gradient, roll_moment_arm
from rollmodel.physics.sections import round_polar_second_moment
from rollmodel.questions.bank.cars import car_of, road_car, stiffness_of
from rollmodel.questions.bank.lesson_02 import LENGTH, lever_factor, round_bar
from rollmodel.questions.bank.lesson_07 import car_limit, hold, two_ends
from rollmodel.questions.records import Numeric, Step
from rollmodel.questions.roads import by
from rollmodel.questions.shown import Given

STIFFNESS = Given("roll stiffness")


def _two_axles(stream) -> dict:
    outer = stream.between(0.205, 0.250, 0.005)
    return {**road_car(stream), "outer": outer,
            "inner": round(outer - stream.between(0.020, 0.040, 0.005), 3)}


def _springs(n, end: str) -> float:
    return float(stiffness.roll_stiffness(getattr(n, f"spring_{end}"), getattr(n, f"track_{end}")))


def _bar(n, end: str) -> float:
    return float(stiffness.roll_stiffness(axle.roll_rate(0.0, getattr(n, f"bar_{end}")),
                                          getattr(n, f"track_{end}")))


def _rear_after(n, factor=None) -> float:
    """Rear roll stiffness with the link moved in: springs as they were, the bar by its lever."""
    return _springs(n, "rear") + _bar(n,
                                      "rear") * (lever_factor(n.inner, n.outer) if factor is None else factor)


def _front(n) -> float:
    return _springs(n, "front") + _bar(n, "front")


def _rows(n) -> dict:
    return {"springs": (_springs(n, "rear"), "roll stiffness"), "bar": (_bar(n, "rear"), "roll stiffness"),
            "front": (_front(n), "roll stiffness"), "before": (_rear_after(n, 1.0), "roll stiffness"),
            "after": (_rear_after(n), "roll stiffness"), "factor": (lever_factor(n.inner, n.outer), "ratio"),
            "bar_after": (_rear_after(n) - _springs(n, "rear"), "roll stiffness"),
            "share_before": (_front(n) / (_front(n) + _rear_after(n, 1.0)), "share")}


after_one_hole = Numeric(
    id="after-one-hole", lesson=10, aim="Work out an axle's roll stiffness after the link has moved a hole.",
    level=2, minutes=4, pools=("exercise", "assessment"),
    text="The rear springs give a roll stiffness of {springs}. The bar has stiff arms and gives {bar} with "
         "the link at {outer}. The link is moved to the hole at {inner}. What is the roll stiffness of the "
         "rear axle then?",
    hint="Which of the two parts does the hole change, and with which power of the lever?",
    process="Bar: old lever over new, squared, times what it gave. Springs: as they were. Add the two.",
    worked=("Old lever over new, squared: {factor}.", "Bar: {bar} x {factor} = {bar_after}.",
            "Springs as they were, {springs}. Together: {answer}."),
    given={"outer": LENGTH, "inner": LENGTH}, draw=_two_axles, kind="roll stiffness", key=_rear_after,
    workings=_rows,
    steps=(Step(name="bar", kind="roll stiffness", text="What does the bar alone give after the move?",
                key=lambda n: _rear_after(n) - _springs(n, "rear"), hint="The lever counts twice.",
                process="Old lever over new, squared, times what the bar gave.",
                worked="Bar: {bar} x {factor} = {answer}.",
                roads=(by("lever not squared", lambda n: _bar(n, "rear") * n.outer / n.inner),
                       by("longer lever taken as stiffer",
                          lambda n: _bar(n, "rear") * (n.inner / n.outer) ** 2))),),
    roads=(by("lever not squared", lambda n: _rear_after(n, n.outer / n.inner)),
           by("longer lever taken as stiffer", lambda n: _rear_after(n, (n.inner / n.outer) ** 2)),
           by("hole makes no difference", lambda n: _rear_after(n, 1.0)),
           by("springs scaled too", lambda n: _rear_after(n, 1.0) * lever_factor(n.inner, n.outer)),
           by("springs left out", lambda n: _rear_after(n) - _springs(n, "rear"))))


def _share(n) -> float:
    """Front share of the roll stiffness after the rear link has moved in."""
    return _front(n) / (_front(n) + _rear_after(n))


share_after = Numeric(
    id="share-after", lesson=10, aim="Work out what a change at one end does to the front's share.",
    level=2, minutes=4, pools=("exercise", "recall", "assessment"),
    text="The front axle has a roll stiffness of {front}. The rear has {before}; one hole in at the rear "
         "makes it {after}. What share of the car's roll stiffness is at the front after the change?",
    hint="A share is a part of a whole. What is the whole now?",
    process="Front over front and rear together, with the new rear.",
    worked=("The whole: {front} + {after}.", "Front share: {answer}. Before it was {share_before}."),
    draw=_two_axles, kind="share", key=_share, workings=_rows,
    roads=(by("front for rear", lambda n: 1 - _share(n)),
           by("ratio for share", lambda n: _front(n) / _rear_after(n)),
           by("change left out", lambda n: _front(n) / (_front(n) + _rear_after(n, 1.0))),
           by("whole car before the change",
              lambda n: (_front(n)) / (_front(n) + _rear_after(n) + _rear_after(n, 1.0)))))


def _gradient(n) -> float:
    """Roll gradient after the change, gravity's share included, by the model."""
    front, rear = stiffness_of(n, car_of(n))
    after = stiffness.axle_stiffness_for(car_of(n).rear,
                                         rear.bar_wheel_rate_in_roll * lever_factor(n.inner, n.outer))
    return float(roll_gradient(car_of(n), front, after))


def _moment_for_each_g(n) -> float:
    return car_of(n).sprung_mass * GRAVITY * roll_moment_arm(car_of(n))


roll_after = Numeric(
    id="roll-after", lesson=10, aim="Predict the roll gradient after a change, to hold against a test.",
    level=3, minutes=6, pools=("exercise", "assessment"),
    text="The sprung mass is {sprung}; its centre of gravity lies {arm} above the roll axis. The front has a "
         "roll stiffness of {front}. A change brings the rear to {after}. Which roll gradient should a test "
         "show afterwards? Count gravity's share.",
    hint="Both axles hold the body up. What does the body's own weight do once it leans?",
    process="Moment for each g = m_s g h'. Roll stiffness of both axles, less m_s g h' for gravity's share. "
            "Moment over stiffness, in degrees.",
    worked=("Moment for each g: {sprung} x g x {arm} = {moment}.",
            "For each degree of lean gravity takes back {taken} from {front} + {after}.",
            "Roll gradient: {answer}."),
    draw=_two_axles, kind="roll gradient", key=_gradient,
    workings=lambda n: {**_rows(n), "sprung": (car_of(n).sprung_mass, "mass"),
                        "arm": (roll_moment_arm(car_of(n)), "length"),
                        "moment": (_moment_for_each_g(n), "moment"),
                        "taken": (_moment_for_each_g(n), "roll stiffness")},
    roads=(by("gravity's share left out",
              lambda n: _moment_for_each_g(n) / GRAVITY / (_front(n) + _rear_after(n))),
           by("gravity's share taken away", lambda n: _moment_for_each_g(n) / GRAVITY
              / (_front(n) + _rear_after(n) + _moment_for_each_g(n))),
           by("one axle alone",
              lambda n: _moment_for_each_g(n) / GRAVITY / (_rear_after(n) - _moment_for_each_g(n))),
           by("rate upside down", lambda n: (_front(n) + _rear_after(n) - _moment_for_each_g(n)) * GRAVITY
              / _moment_for_each_g(n) / GRAVITY**2)))


def _stressed(stream) -> dict:
    """A solid bar in two holes, and how far its link moves at full wheel travel."""
    bar = round_bar(stream)
    return {**bar, "outer": bar["lever"],
            "inner": round(bar["lever"] - stream.between(0.020, 0.040, 0.005), 3),
            "travel": stream.between(0.010, 0.025, 0.001)}


def _stress(n, lever) -> float:
    """Surface stress when the links move by ``n.travel`` each way in roll."""
    section = round_polar_second_moment(n.outer_diameter)
    force = 2 * torsion_rate_one_end_held(n.shear_modulus, section, n.centre_length, lever) * n.travel
    return float(surface_shear_stress(force * lever, n.outer_diameter))


stress_after = Numeric(
    id="stress-after", lesson=10, aim="Say what a stiffer hole does to the stress in the bar.",
    level=2, minutes=4, pools=("exercise", "assessment"),
    text="With the link at {outer} a bar with stiff arms reaches a shear stress of {stress} at full wheel "
         "travel. The link is moved to the hole at {inner}; the link travels as far as before. Which stress "
         "does the bar reach then?",
    hint="For the same travel of the link, does a shorter lever twist the bar more or less?",
    process="Twist = travel / lever, and the stress goes with the twist. So the stress goes with one over "
            "the lever.",
    worked=("Old lever over new: {ratio}. The bar twists that many times as much.",
            "{stress} x {ratio} = {answer}. Hold it against what the steel's maker allows."),
    given={"outer": LENGTH, "inner": LENGTH}, draw=_stressed, kind="stress",
    key=lambda n: _stress(n, n.inner),
    workings=lambda n: {"stress": (_stress(n, n.outer), "stress"), "ratio": (n.outer / n.inner, "ratio")},
    roads=(by("stress taken with the rate", lambda n: _stress(n, n.outer) * lever_factor(n.inner, n.outer)),
           by("hole makes no difference", lambda n: _stress(n, n.outer)),
           by("longer lever taken as stiffer", lambda n: _stress(n, n.outer) * n.inner / n.outer)))


def _near_balance(stream) -> dict:
    """A front that is short, and load transfer that a bar change moves from front to rear."""
    return {**two_ends(stream, weak="front"), "moved": stream.between(600, 900, 50)}


def moved(n):
    return type(n)(**{**vars(n), "transfer_front": n.transfer_front - n.moved,
                      "transfer_rear": n.transfer_rear + n.moved})


def _other_way(n):
    return type(n)(**{**vars(n), "transfer_front": n.transfer_front + n.moved,
                      "transfer_rear": n.transfer_rear - n.moved})


limit_after = Numeric(
    id="limit-after", lesson=10, aim="Predict the car's limit after a change that moves load transfer.",
    level=3, minutes=8, pools=("exercise", "assessment"),
    text="A tyre's grip is {peak_grip} at no load and falls by {grip_drop} of load. Each front tyre carries "
         "{load_front} at rest, each rear tyre {load_rear}. At the limit the front transfers "
         "{transfer_front} and the rear {transfer_rear}. A far stiffer rear bar takes {moved} of transfer "
         "off the front and puts it on the rear (equal tracks). What can the car hold after the change?",
    hint="Work out both ends with the new transfers. Which of them ends the corner?",
    process="Each pair: grip at each tyre's load, times the load, added. Over the axle's weight: what that "
            "end holds. The smaller end is the car's limit.",
    worked=("New transfers: front {new_front}, rear {new_rear}.", "The front holds {front}, the rear {rear}.",
            "The smaller one: {answer}. Before the change it was {before}."),
    given={"peak_grip": Given("ratio"), "grip_drop": Given("grip drop"), "moved": Given("load", 50, 10),
           **{f"{what}_{end}": Given("load", 50, 10)
              for what in ("load", "transfer") for end in ("front", "rear")}},
    draw=_near_balance, kind="lateral acceleration", key=lambda n: car_limit(moved(n)),
    workings=lambda n: {"new_front": (n.transfer_front - n.moved, "load"),
                        "new_rear": (n.transfer_rear + n.moved, "load"),
                        "front": (hold(moved(n), "front"), "lateral acceleration"),
                        "rear": (hold(moved(n), "rear"), "lateral acceleration"),
                        "before": (car_limit(n), "lateral acceleration")},
    roads=(by("wrong direction", lambda n: car_limit(_other_way(n))), by("change left out", car_limit),
           by("grip falls left out", lambda n: n.peak_grip * GRAVITY),
           by("per wheel for per axle", lambda n: 2 * car_limit(moved(n)))))

QUESTIONS = (after_one_hole, share_after, roll_after, stress_after, limit_after)
