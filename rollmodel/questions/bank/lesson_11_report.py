"""Lesson 11, did it work: setting a link, and reporting on the day."""

from rollmodel.questions.bank.lesson_11_plan import enough
from rollmodel.questions.bank.lesson_11_words import COUNT, GRADIENT, INSIDE, ends, measured, of_the_runs
from rollmodel.questions.records import Criterion, Open, Ordering, Sample
from rollmodel.questions.roads import by

NIL_PRELOAD = {
    "stand": "Stand the car on level pads, pressures right, the driver's weight aboard.",
    "free": "Undo one link of the bar.",
    "settle": "Roll the car to and fro so that it settles, and read the pads.",
    "fit": "Turn the link longer or shorter until its bolt goes in by hand.",
    "lock": "Lock the link and torque its bolts to the maker's figure.",
    "read": "Read the pads again: the diagonal must not have moved.",
}


def _order(*names: str) -> dict[str, float]:
    return {name: float(place) for place, name in enumerate(names, 1)}


nil_preload = Ordering(
    id="nil-preload",
    lesson=11,
    aim="Put the work of setting a link without preload in order.",
    level=1,
    minutes=3,
    pools=("exercise", "assessment"),
    text="A bar is to stand without preload. Put the work in order, from first to last.",
    hint="How must the car stand while the link is fitted? And what shows that it fitted?",
    process="Stand as driven, free the bar, let the car settle, fit by hand, lock, and check on the pads.",
    worked=(
        "The car stands as it is driven, the bar is free, and the link takes the length that fits.",
        "The pads before and after show it: a preload takes load from one diagonal and puts it on the other.",
    ),
    items=NIL_PRELOAD,
    values=lambda n: _order(*NIL_PRELOAD),
    gap=0.0,  # common practice
    roads=(
        by("link fitted with no driver", lambda n: _order("free", "settle", "fit", "stand", "lock", "read")),
        by("locked before it fits", lambda n: _order("stand", "free", "settle", "lock", "fit", "read")),
        by("measure skipped", lambda n: _order("stand", "free", "settle", "read", "fit", "lock")),
    ),
)

did_it_work = Open(
    id="did-it-work",
    lesson=11,
    aim="Report what a test day showed, and say what to do next.",
    level=3,
    minutes=10,
    pools=("exercise", "assessment"),
    text="The rear bar went one hole stiffer. The sheet predicts that the roll gradient changes by "
    "{predicted}. {runs} runs each way round, before and again after, give {value}, with an interval from "
    "{low} to {high}. The driver is pleased: the car feels better, and one lap was quicker than any "
    "before. The workshop wants to know whether the change worked. What do you report, and which change or "
    "runs do you plan next, and why?",
    hint="What does the interval fit, and what does it leave open? What does a lap time hold besides the "
    "bar?",
    process="The verdict with its interval; what lap and feel are worth; what would decide it; how to "
    "drive that.",
    worked=(
        "From {low} to {high}: zero is inside, and so is {predicted}. Not resolved.",
        "About {enough} runs each way round, before and again after, would show the predicted change four "
        "times in five.",
        "So: more runs of the same, or less scatter, or a larger step of the same change. Nothing else "
        "changed, both ways round, over the same lateral accelerations.",
    ),
    given={"runs": COUNT, "predicted": GRADIENT, "value": GRADIENT},
    draw=lambda stream: measured(stream, -0.14, -0.02),
    sound=lambda n: (
        abs(n.value) < INSIDE * of_the_runs(n)
        and abs(n.value - n.predicted) < INSIDE * of_the_runs(n)
        and round(n.runs) < enough(n) <= 12
    ),
    workings=lambda n: {
        "low": (ends(n)[0], "roll gradient"),
        "high": (ends(n)[1], "roll gradient"),
        "enough": (enough(n), "ratio"),
    },
    rubric=(
        Criterion(1, "Gives the verdict: not resolved, with the interval from {low} to {high}."),
        Criterion(
            2,
            "Gives the reason: zero is inside, so it may be nothing; the prediction is inside too, so it "
            "may be there. Not seen is not the same as not there.",
        ),
        Criterion(
            1, "Says why one lap and the driver's feel decide nothing: laps scatter, and the driver knew."
        ),
        Criterion(
            1,
            "Plans what would decide it: about {enough} runs each way, less scatter, or a larger step of the "
            "same change at the same end.",
        ),
        Criterion(
            1, "Says how: nothing else changed, both ways round, same range, and a stop rule or a caution."
        ),
    ),
    samples=(
        Sample(
            "weak",
            1,
            "You cannot tell from one lap because laps differ and the driver wanted it to be better. I "
            "would try again some day.",
            "Lap and feel are put in their place. No verdict, no reason from the interval, no plan.",
        ),
        Sample(
            "fair",
            3,
            "Not resolved, the interval goes over zero. One quick lap is no proof, lap times differ "
            "anyway. I would drive more runs.",
            "Verdict, lap, and more runs. The second half of the reason, the number and the way are missing.",
        ),
        Sample(
            "good",
            6,
            "Not resolved. The interval holds zero as well as the predicted change, so the runs fit "
            "both: I can neither say that it worked nor that it did not. One lap is no proof, laps scatter "
            "by more than that, and the driver knew of the change. I would leave the car as it is and "
            "drive as many runs each way as the plan says for this change, then go back a hole and drive "
            "as many again: same circle, both ways, same pressures, same lateral accelerations, closed "
            "course, and stop when the roll is off the sheet or a wheel lifts. If that is too many, two "
            "holes at the rear in place of one.",
            "All five points.",
        ),
    ),
)

QUESTIONS = (nil_preload, did_it_work)
