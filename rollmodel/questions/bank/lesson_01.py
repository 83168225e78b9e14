"""Lesson 1, a spring that works only in roll: questions with a number."""

from rollmodel.physics import axle, stiffness
from rollmodel.questions.records import Numeric, Step
from rollmodel.questions.roads import by, degree_for_radian, full_track_for_half, with_changed
from rollmodel.questions.shown import Given

RATE, TRAVEL = Given("rate"), Given("length", 1, 0.05)
BOTH_RATES = {"spring_rate": RATE, "bar_rate": RATE}


def corner(stream):
    """Wheel rates of a spring and a bar, and a wheel travel, as on a road or track car."""
    return {"spring_rate": stream.between(18e3, 60e3, 1e3), "bar_rate": stream.between(6e3, 40e3, 1e3),
            "travel": stream.between(0.010, 0.040, 0.002)}


bar_force_in_roll = Numeric(
    id="bar-force-in-roll", lesson=1, aim="Work out what the bar adds at a wheel in roll.",
    level=1, minutes=3, pools=("exercise", "recall"),
    text="At the wheel the bar has a rate of {bar_rate} with the other wheel held, and the spring "
         "{spring_rate}. The body rolls: the outside wheel goes up by {travel}, the inside wheel down by the "
         "same. What force does the bar alone add at the outside wheel?",
    hint="By how much does one end of the bar move against the other?",
    process="The bar feels the difference between the wheels. Find that difference, then multiply by the "
            "bar's rate.",
    worked=("The difference between the wheels is {travel} up and {travel} down: {difference}.",
            "Force of the bar = {bar_rate} x {difference} = {answer}."),
    given={**BOTH_RATES, "travel": TRAVEL}, draw=corner, kind="load",
    key=lambda n: float(axle.wheel_loads(0.0, n.bar_rate, n.travel, -n.travel)[0]),
    workings=lambda n: {"difference": (2 * n.travel, "length")},
    steps=(Step(
        name="difference", kind="length",
        text="How far has one wheel moved against the other?",
        key=lambda n: float(axle.wheel_loads(0.0, n.bar_rate, n.travel, -n.travel)[0] / n.bar_rate),
        hint="One went up, the other down.",
        process="Add how far up the one went and how far down the other.",
        worked="The difference between the wheels is {travel} up and {travel} down: {answer}.",
        roads=(by("held used in roll", lambda n: n.travel),
               by("factor 2 taken twice", lambda n: 4 * n.travel))),),
    roads=(by("held used in roll", lambda n: axle.wheel_loads(0.0, n.bar_rate, n.travel, 0.0)[0]),
           with_changed("factor 2 taken twice", bar_rate=lambda rate: 2 * rate),
           by("springs counted in",
              lambda n: axle.wheel_loads(n.spring_rate, n.bar_rate, n.travel, -n.travel)[0]),
           by("bar left out", lambda n: axle.wheel_loads(n.spring_rate, 0.0, n.travel, -n.travel)[0])))

rate_in_roll = Numeric(
    id="rate-in-roll", lesson=1, aim="Work out what each wheel feels in roll.",
    level=1, minutes=2, pools=("exercise", "recall", "assessment"),
    text="Each spring has {spring_rate} at its wheel. The bar has {bar_rate} at the wheel with the other "
         "wheel held. In roll the wheels move by equal amounts, one up and one down. What rate does each "
         "wheel feel?",
    hint="The spring sees its own wheel. What does the bar see?",
    process="Write down the spring's rate. Add the bar's, counted as often as the bar twists.",
    worked=("The spring sees its own wheel only: {spring_rate}.",
            "The bar sees the difference, twice the travel of one wheel: 2 x {bar_rate} = {bar_share}.",
            "Together: {answer}."),
    given=BOTH_RATES, draw=corner, kind="rate",
    key=lambda n: float(axle.roll_rate(n.spring_rate, n.bar_rate)),
    workings=lambda n: {"bar_share": (axle.roll_rate(0.0, n.bar_rate), "rate")},
    roads=(by("held used in roll", lambda n: axle.one_wheel_rate_other_held(n.spring_rate, n.bar_rate)),
           by("bar left out", lambda n: axle.heave_rate(n.spring_rate, n.bar_rate)),
           by("springs left out", lambda n: axle.roll_rate(0.0, n.bar_rate)),
           by("springs doubled too", lambda n: axle.roll_rate(2 * n.spring_rate, n.bar_rate)),
           by("factor 2 taken twice", lambda n: axle.roll_rate(n.spring_rate, 2 * n.bar_rate))))

one_wheel_bump = Numeric(
    id="one-wheel-bump", lesson=1, aim="Work out the load a one-wheel bump puts on that wheel.",
    level=2, minutes=3, pools=("exercise", "assessment"),
    text="Each spring has {spring_rate} at its wheel. The bar has {bar_rate} at the wheel with the other "
         "wheel held. The left wheel rides up {travel} on a kerb; the right wheel does not move. How much "
         "load does the left wheel gain?",
    hint="How many ends of the bar move here?",
    process="Add the spring's rate and the bar's rate with one end held. Multiply by the travel.",
    worked=("Only one end of the bar moves, so it feels its rate with the other end held.",
            "Rate at the left wheel: {spring_rate} + {bar_rate} = {rate}.",
            "Load gained: {rate} x {travel} = {answer}."),
    given={**BOTH_RATES, "travel": TRAVEL}, draw=corner, kind="load",
    key=lambda n: float(axle.wheel_loads(n.spring_rate, n.bar_rate, n.travel, 0.0)[0]),
    workings=lambda n: {"rate": (axle.one_wheel_rate_other_held(n.spring_rate, n.bar_rate), "rate")},
    roads=(by("roll used for held",
              lambda n: axle.wheel_loads(n.spring_rate, n.bar_rate, n.travel, -n.travel)[0]),
           by("bar left out", lambda n: axle.wheel_loads(n.spring_rate, n.bar_rate, n.travel, n.travel)[0]),
           by("springs left out", lambda n: axle.wheel_loads(0.0, n.bar_rate, n.travel, 0.0)[0])))

other_wheel = Numeric(
    id="other-wheel", lesson=1, aim="Say what a bump at one wheel does to the other, with its sign.",
    level=2, minutes=3, pools=("exercise", "assessment"),
    text="Each spring has {spring_rate} at its wheel. The bar has {bar_rate} at the wheel with the other "
         "wheel held. The left wheel rides up {travel} on a kerb; the right wheel does not move. By how much "
         "does the load on the right wheel change? Write a minus sign if it gets less.",
    hint="The bar has two ends. Which way does the far end push?",
    process="The right spring does not move, so it changes nothing. The bar's far end pulls the right wheel "
            "up: bar rate times the difference in travel.",
    worked=("The right wheel's own spring has not moved: no change from it.",
            "The bar is twisted by {travel}. It lifts at the right end with {bar_rate} x {travel}.",
            "Change of load at the right wheel: {answer}."),
    given={**BOTH_RATES, "travel": TRAVEL}, draw=corner, kind="load", signed=True,
    key=lambda n: float(axle.wheel_loads(n.spring_rate, n.bar_rate, n.travel, 0.0)[1]),
    roads=(by("sign", lambda n: -axle.wheel_loads(n.spring_rate, n.bar_rate, n.travel, 0.0)[1]),
           by("roll used for held", lambda n: axle.wheel_loads(0.0, n.bar_rate, n.travel, -n.travel)[1]),
           by("bar reaches one wheel", lambda n: axle.wheel_loads(n.spring_rate, 0.0, n.travel, 0.0)[1]),
           by("springs counted in", lambda n: -axle.wheel_loads(n.spring_rate, n.bar_rate, n.travel, 0.0)[0]),
           by("the moving wheel's figure",
              lambda n: axle.wheel_loads(n.spring_rate, n.bar_rate, n.travel, 0.0)[0])))

both_wheels = Numeric(
    id="both-wheels-bump", lesson=1, aim="Work out the load when both wheels rise together.",
    level=1, minutes=2, pools=("exercise", "recall"),
    text="Each spring has {spring_rate} at its wheel. The bar has {bar_rate} at the wheel with the other "
         "wheel held. Both wheels of the axle ride up {travel} on a ridge that runs straight across the "
         "road. How much load does each wheel gain?",
    hint="By how much does the bar twist?",
    process="Both ends of the bar rise alike. See what twist that leaves, then count what pushes on one "
            "wheel.",
    worked=("Both ends of the bar rise by {travel}: it turns in its bushings and does not twist.",
            "So only the spring pushes: {spring_rate} x {travel} = {answer}."),
    given={**BOTH_RATES, "travel": TRAVEL}, draw=corner, kind="load",
    key=lambda n: float(axle.wheel_loads(n.spring_rate, n.bar_rate, n.travel, n.travel)[0]),
    roads=(by("bar stiffens heave", lambda n: axle.wheel_loads(n.spring_rate, n.bar_rate, n.travel, 0.0)[0]),
           by("bar stiffens heave",
              lambda n: axle.wheel_loads(n.spring_rate, n.bar_rate, n.travel, -n.travel)[0]),
           by("springs left out", lambda n: axle.wheel_loads(0.0, n.bar_rate, n.travel, 0.0)[0]),
           by("per axle for per wheel",
              lambda n: sum(axle.wheel_loads(n.spring_rate, 0.0, n.travel, n.travel)))))

other_wheel_free = Numeric(
    id="other-wheel-free", lesson=1,
    aim="Work out the rate at one wheel while the bar drags the other along.",
    level=3, minutes=5, pools=("exercise",),
    text="Each spring has {spring_rate} at its wheel. The bar has {bar_rate} at the wheel with the other "
         "wheel held. The left wheel is jacked up slowly. The right wheel keeps its load and may follow. "
         "What rate does the left wheel feel?",
    hint="The right end gives way until its spring balances the bar. So the bar meets a spring in line with "
         "it.",
    process="Seen from the left, the bar and the far spring are in line: add what they give. Then add the "
            "left spring, which stands beside them.",
    worked=("Bar and far spring in line: 1 / (1 / {bar_rate} + 1 / {spring_rate}) = {chain}.",
            "Beside them the left spring: {spring_rate} + {chain} = {answer}.",
            "That is less than with the right wheel held ({held})."),
    given=BOTH_RATES, draw=corner, kind="rate",
    key=lambda n: float(axle.one_wheel_rate_other_free(n.spring_rate, n.bar_rate)),
    workings=lambda n: {"chain": (stiffness.in_series(n.bar_rate, n.spring_rate), "rate"),
                        "held": (axle.one_wheel_rate_other_held(n.spring_rate, n.bar_rate), "rate")},
    roads=(by("other wheel held", lambda n: axle.one_wheel_rate_other_held(n.spring_rate, n.bar_rate)),
           by("roll used for held", lambda n: axle.roll_rate(n.spring_rate, n.bar_rate)),
           by("bar left out", lambda n: axle.heave_rate(n.spring_rate, n.bar_rate)),
           by("springs left out", lambda n: stiffness.in_series(n.spring_rate, n.bar_rate))))

bar_force_at_angle = Numeric(
    id="bar-force-at-angle", lesson=1, aim="Work out the bar's force from the body's roll angle.",
    level=3, minutes=5, pools=("exercise", "assessment"),
    text="The track is {track}. At the wheel the bar has {bar_rate} with the other wheel held. The body "
         "rolls by {angle}; the tyres are taken as rigid. What force does the bar add at the outside wheel?",
    hint="Turn the angle into the travel of one wheel first. How far is a wheel from the middle of the car?",
    process="Travel of one wheel = half the track times the angle in radians. The bar feels twice that. "
            "Multiply by the bar's rate.",
    worked=("Travel of each wheel against the body: half of {track}, times {angle} in radians: {travel}.",
            "One goes up and one goes down, so the ends of the bar are {difference} apart.",
            "Force: {bar_rate} x {difference} = {answer}."),
    given={"track": Given("long length"), "bar_rate": RATE, "angle": Given("angle")},
    draw=lambda stream: {"track": stream.between(1.38, 1.62, 0.02),
                         "bar_rate": stream.between(8e3, 40e3, 1e3),
                         "angle": stream.between(0.0175, 0.0611, 0.00175)},
    kind="load", key=lambda n: float(stiffness.roll_stiffness(axle.roll_rate(0.0, n.bar_rate), n.track)
                                     * n.angle / n.track),
    workings=lambda n: {"travel": (n.track / 2 * n.angle, "length"),
                        "difference": (n.track * n.angle, "length")},
    roads=(by("held used in roll",
              lambda n: stiffness.roll_stiffness(n.bar_rate, n.track) * n.angle / n.track),
           full_track_for_half("track"), degree_for_radian("angle")))

QUESTIONS = (bar_force_in_roll, rate_in_roll, one_wheel_bump, other_wheel, both_wheels, other_wheel_free,
             bar_force_at_angle)
