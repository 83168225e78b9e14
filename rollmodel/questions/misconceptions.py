"""The wrong beliefs that wrong answers come from: a name, a hint, and what is really so.

A question's wrong road, or a wrong option, points at one of these. The hint is shown first and
gives nothing away; ``why`` is shown at the second try.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Misconception:
    """One wrong belief, in the words a learner reads."""

    id: str
    name: str
    hint: str
    why: str


_ALL: dict[str, Misconception] = {}


def _add(id: str, name: str, hint: str, why: str) -> None:
    _ALL[id] = Misconception(id, name, hint, why)


def misconception(id: str) -> Misconception:
    """Look one up by its id."""
    return _ALL[id]


def every_misconception() -> list[Misconception]:
    """All of them, in the order written."""
    return list(_ALL.values())


# The factor 2
_add("held used in roll", "the rate with one end held, where roll was meant",
     "How many ends of the bar move?",
     "In roll both ends move, in opposite directions. The bar twists twice as much for the same travel "
     "of one wheel, so each end feels 2 k_b, not k_b.")
_add("roll used for held", "the rate in roll, where one end is held",
     "Does the other end move here?",
     "With the other end held, only one end twists the bar: that end feels k_b. The factor 2 belongs to roll alone.")
_add("factor 2 lost the other way", "halved where it should be doubled",
     "Do the two wheels share one twist, or does each add to it?",
     "Each end adds its own twist. In roll the bar is twisted twice as much, so each end feels more, not less.")
_add("bar takes load off both", "a bar taken to lift both of its wheels",
     "A twisted bar pushes its two ends. Which way is each?",
     "Whatever a bar takes from one wheel it gives to the other. It cannot lift both.")
_add("factor 2 taken twice", "the factor 2 taken twice",
     "Count once more what doubles in roll, and how often.",
     "In roll the twist doubles, once. Each wheel feels 2 k_b. It is not doubled again.")
_add("springs doubled too", "the springs doubled as well as the bar",
     "Which of the two joins the wheels to each other?",
     "Only the bar joins the two wheels, so only the bar feels their difference. "
     "A spring sees its own wheel alone: k_w, never 2 k_w.")
_add("bar stiffens heave", "the bar counted where both wheels move together",
     "Does the bar twist when both ends rise by the same amount?",
     "When both wheels rise alike the bar turns in its bushings and does not twist. It adds nothing.")
_add("springs left out", "the springs left out",
     "What else pushes on that wheel?",
     "The wheel has its own spring as well as the bar. Both push on it, so both rates add.")
_add("springs counted in", "the springs counted in, where the bar alone was asked for",
     "Which part was asked about: the whole corner, or the bar alone?",
     "The question asks for the bar's share. The spring's share is there too, but it is another number.")
_add("bar left out", "the bar left out",
     "Does the bar twist here?",
     "As soon as one wheel moves more than the other the bar twists and pushes on both.")
_add("bar reaches one wheel", "the bar taken to reach only the wheel that moves",
     "A bar has two ends. What does the other end push on?",
     "The bar pushes on both wheels by the same amount, one way at this end and the other way at that end.")
_add("the moving wheel's figure", "the load of the wheel that moved, where the other wheel's was asked for",
     "Which wheel was asked about?",
     "The wheel that moved has its spring and the bar pushing on it. At the other wheel only the bar has changed.")
_add("other wheel held", "the other wheel taken as held",
     "Is the other wheel fixed, or may it follow?",
     "If the other wheel may move, the bar drags it along. The bar then twists less, and pushes less.")
_add("in line taken for side by side", "the rates added, though one sits behind the other",
     "Does each carry the whole force, or do they share it?",
     "Parts that sit one behind the other carry the same force, and their give adds up. "
     "The result is softer than the softest part. Rates add only for parts that share the force.")
_add("side by side taken for in line", "taken as one behind the other, though they share the force",
     "Do they share the force, or does each carry all of it?",
     "Springs that share the force are stiffer together: their rates add.")
_add("one part only", "one part taken for the whole chain",
     "What else gives way under the same force?",
     "Every part in the chain gives a little. Add up what each one gives.")
_add("rate upside down", "divided where it should be multiplied",
     "A rate is force for each millimetre. How many millimetres are there?",
     "Force is rate times travel: so much for each unit of travel, so many units of travel.")

# Motion ratio
_add("motion ratio not squared", "motion ratio used once instead of squared",
     "The link moves less than the wheel. Does it push with the same force as well?",
     "The motion ratio comes in twice: once because the link travels less, once because its force has "
     "less leverage at the wheel. So the rate takes MR squared.")
_add("motion ratio squared twice", "motion ratio squared twice",
     "Count how often the motion ratio comes in.",
     "The motion ratio comes in twice: once for travel, once for force. That is MR squared, not MR to the fourth.")
_add("motion ratio inverted", "motion ratio upside down",
     "Is the rate at the wheel larger or smaller than the rate at the link?",
     "Here the motion ratio is component travel over wheel travel, usually below 1. "
     "Multiply by its square. Some books use the inverse.")
_add("motion ratio left out", "motion ratio left out",
     "Is the wheel where the link is?",
     "The link travels less than the wheel. Rate at the wheel = rate at the link times MR squared.")

# The bar's own sizes
_add("radius for diameter", "radius put where the diameter belongs",
     "Look at which of the two your formula asks for: D or r.",
     "With pi/32 the formula wants the diameter, to the fourth power. "
     "Half the size is a sixteenth of the stiffness.")
_add("diameter for radius", "diameter put where the radius belongs",
     "Look at which of the two your formula asks for: D or r.",
     "With pi/2 the formula wants the radius, to the fourth power. "
     "Twice the size is sixteen times the stiffness.")
_add("bending for twisting", "the section's bending figure used for twisting",
     "Is this part bent, or twisted?",
     "A round bar's figure for twisting, J, is twice its figure for bending, I. The centre section twists.")
_add("bore left out", "the tube taken as solid",
     "What is in the middle of this bar?",
     "It is a tube: take away the bore. J = pi/32 (D^4 - d^4).")
_add("wall taken once", "the wall taken off one side only",
     "How many walls do you cross on the way through the tube?",
     "The bore is the outer diameter less two walls, one on each side.")
_add("power of difference", "D - d raised to the fourth power",
     "Which comes first: the power, or the taking away?",
     "First raise each diameter to the fourth power, then take away: D^4 - d^4.")
_add("fourth power as second", "stiffness taken to go with the diameter squared",
     "Area goes with the square. Does stiffness in twist?",
     "In twist the outside does most of the work, and it is also further out. Stiffness goes with D to the fourth power.")
_add("fourth power as third", "stiffness taken to go with the diameter cubed",
     "Cubed is for strength. Which power is for stiffness?",
     "The stress in a bar goes with D cubed, its stiffness with D to the fourth power.")
_add("fourth power as first", "stiffness taken to go with the diameter itself",
     "Does a bar of twice the size twist half as much, or far less?",
     "Stiffness in twist goes with D to the fourth power: a little more size is much more stiffness.")
_add("lever not squared", "lever arm used once instead of squared",
     "A longer lever changes two things at the link. Which two?",
     "A longer lever gives the force more twist to work with, and turns the twist into more travel. "
     "It counts twice: the rate goes with 1/a squared.")
_add("lever cubed", "lever arm cubed",
     "Cubed is for an arm that bends. Does this arm bend?",
     "With a stiff arm the lever counts twice, so the rate goes with 1/a squared.")
_add("longer lever taken as stiffer", "a longer lever taken as stiffer",
     "Try it with a spanner: where is it easier to turn, near the end or near the nut?",
     "Further out you push with more leverage on the bar, so it gives way more. Longer lever, softer bar.")
_add("lever slanted", "length along the arm taken for the lever",
     "How far is the link from the bar's axis, measured square?",
     "Only the distance square to the bar's axis twists it. The length along a swept arm is more than that.")
_add("arm taken as rigid", "the arms taken as rigid",
     "Does anything else bend under the link's force?",
     "The arms bend as well. What they give adds to what the twist gives, and the bar is softer for it.")
_add("centre taken as rigid", "the twist of the centre section left out",
     "Does the centre section give as well?",
     "The centre section twists under the link's force. What it gives adds to what the arms give.")
_add("stiffnesses added", "stiffnesses added where the give adds",
     "Do the two parts share the force, or does each carry all of it?",
     "Each part carries the whole link force, so what each one gives adds up. Stiffnesses do not add here.")
_add("angle straight line", "a straight line drawn from soft to stiff",
     "Does the rate rise evenly with the angle?",
     "What the blade gives goes with the square of the angle's cosine. Most of the change sits near on edge.")
_add("angle from the other face", "angle counted from the wrong face",
     "Is 0 deg lying flat, or on edge?",
     "Here 0 deg is lying flat, the soft end, and 90 deg is on edge, the stiff end.")
_add("blade changes evenly", "each turn of the blade taken to change the rate by the same amount",
     "Look at the two ends of the travel by themselves.",
     "Near flat a few degrees do almost nothing. Near on edge the same few degrees change the rate a lot.")
_add("blade changes near flat", "most of the change taken to be near flat",
     "Look at what a blade gives when it is on edge, and a few degrees off.",
     "On edge a blade gives very little. A few degrees off edge let its soft direction in, "
     "and that is far softer. So the large change is near on edge.")
_add("stiffness goes with weight", "stiffness taken to go with the weight of metal",
     "Which metal does the work: that near the axis, or that at the outside?",
     "The metal near the axis hardly twists and hardly works. Taking it out saves weight and costs little stiffness.")
_add("both ends' torque added", "the torque of both ends added",
     "If one end pushes, what does the other end do?",
     "The two ends hold against each other, like two hands wringing a cloth. "
     "The torque in the bar is that of one end, force times lever, and not twice that.")
_add("hole makes no difference", "the hole taken to make no difference",
     "The bar is the same. Is the lever?",
     "The hole sets the lever, and the lever counts twice.")
_add("inside works as hard", "the inside of the bar taken to work as hard as the outside",
     "How far does the metal near the axis move when the bar twists?",
     "The surface moves most and is stressed most. At the axis nothing moves and nothing is stressed.")

# Units and signs
_add("mass for weight", "mass taken for weight",
     "Is this a mass or a force?",
     "Scales show a mass. The load on a tyre is a force: mass times g, 9.81 N for each kg. "
     "In US units a mass of 1 lb weighs 1 lbf.")
_add("weight for mass", "weight taken for mass",
     "Is this a mass or a force?",
     "g came in once too often. Force = mass times acceleration; an acceleration in g already has g in it.")
_add("degree for radian", "degrees and radians mixed",
     "Is the angle in degrees or in radians, and which does this step want?",
     "One radian is 57.3 degrees. Small angles turn into travel in radians only: travel = radius times angle in rad.")
_add("N/m for N/mm", "newtons per metre and per millimetre mixed",
     "How many millimetres are in a metre?",
     "1 N/mm is 1000 N/m. Work in metres throughout, or in millimetres throughout.")
_add("m for mm", "metres and millimetres mixed",
     "How many millimetres are in a metre?",
     "A factor of 1000 went astray. Work in metres throughout, or in millimetres throughout.")
_add("per inch for per foot", "inches and feet mixed",
     "How many inches are in a foot?",
     "A factor of 12 went astray. Work in inches throughout, or in feet throughout.")
_add("other family's unit", "the figure of one unit system with the unit of the other",
     "Look at your unit once more. Is it the one your figure is in?",
     "The figure belongs to one system of units and the unit to the other: "
     "1 lbf is 4.45 N and 1 lbf/in is 0.175 N/mm.")
_add("g for m/s²", "g and m/s² mixed",
     "Is the acceleration in g or in m/s²?",
     "1 g is 9.81 m/s². Force in N is mass in kg times acceleration in m/s².")
_add("percent slip", "the figure is 100 times out",
     "Is it a share of 1 or a share of 100?",
     "52 % is 0.52. One of the two was written with the other's sign.")
_add("pressure slip", "the figure is 1000 times out",
     "1 MPa is 1 N/mm². Which units went in?",
     "Work in N and mm throughout: the answer is then in N/mm², which is MPa. 1 ksi is 1000 psi.")
_add("sign", "the right size with the wrong sign",
     "Which way does it go?",
     "The size is right. Say which way counts as plus, then see which way this goes.")
_add("front for rear", "front and rear changed over",
     "Which end was asked about?",
     "The figures of the other end were used, or the two were taken away the wrong way round.")

# Track, wheels and axles
_add("full track for half", "the whole track where half belongs",
     "How far is each wheel from the middle of the car?",
     "Each wheel is half a track from the middle. It is the whole track only between the two wheels.")
_add("half track for full", "half the track where the whole belongs",
     "One wheel gains what the other loses. How far apart are the two forces?",
     "A gain at one wheel and the same loss at the other are a whole track apart. Moment = track times transfer.")
_add("per wheel for per axle", "one wheel's figure where the axle's belongs",
     "One wheel, or the two of them?",
     "The axle has two wheels. Say which of the two figures you use: for one wheel or for both.")
_add("per axle for per wheel", "the axle's figure where one wheel's belongs",
     "One wheel, or the two of them?",
     "An axle's load is carried by two wheels. Each has half of it before any is transferred.")
_add("inside for outside", "the inside wheel and the outside wheel changed over",
     "Which wheel gains load in a corner?",
     "The outside wheel gains what the inside wheel loses.")
_add("total mass for axle mass", "the whole car's figure where the axle's belongs",
     "How much of the car rests on this axle?",
     "Each axle carries, and has to push round the corner, its own share of the mass only.")

# Roll and load transfer
_add("gravity's share left out", "gravity's share left out",
     "Once the body leans, where is its weight?",
     "As the body leans its weight moves outward and leans on the springs as well. "
     "Take m_s g h' from the roll stiffness, or add m_s g h' phi to the moment.")
_add("springs and bar path left out", "the path through springs and bar left out",
     "How many paths does the load take?",
     "There are three: springs and bar, links, and the wheels' own mass. Add all three.")
_add("link path left out", "the path through the links left out",
     "Does any of the side force go straight through the links?",
     "The links carry the side force at the height of the roll centre. That part needs no roll at all.")
_add("unsprung path left out", "the wheels' own mass left out",
     "The wheels have mass as well. Where does their side force go?",
     "Wheels, hubs and brakes have their own mass at their own height. They transfer load as well, with no roll.")
_add("centre of gravity for roll centre", "height of the centre of gravity put where the roll centre belongs",
     "At which height do the links pass their force on?",
     "Through the links the force acts at the roll centre. What is above it rolls the body instead.")
_add("bar adds total transfer", "a bar taken to add to the car's total load transfer",
     "What has to balance in the whole car: the bar, or mass, height and track?",
     "Mass, height of the centre of gravity, track and lateral acceleration set the total. "
     "A bar moves transfer from one end of the car to the other.")
_add("less roll is less transfer", "less roll taken as less load transfer",
     "A go-kart hardly rolls. Does it transfer load?",
     "Load transfer comes from the side force acting above the ground. A car that hardly rolls has almost all of it.")
_add("bar loads inside wheel", "a bar taken to press its inside wheel down",
     "Which way does the bar push at the inside end while the body leans out?",
     "The body leans outward, so the bar is twisted so that it lifts the inside wheel. "
     "At its own end the inside wheel gets lighter.")
_add("only its own end", "a bar taken to change its own end alone",
     "The total hardly changes. Who loses what this end gains?",
     "The body is one piece. What one end takes of the roll moment, the other end no longer has to take.")
_add("lifted end still shares", "an end with its inside wheel up taken to share on",
     "What is left to take from a wheel that is already in the air?",
     "When the inside wheel is up, that end has given all it has. "
     "All further roll moment goes to the other end, and the bar at the lifted end does nothing more.")
_add("half the axle load forgotten", "the wheel taken to carry the whole axle's load",
     "How much did the inside wheel carry before the corner?",
     "At rest each wheel carries half the axle's load. It is off the ground when the transfer has reached that half.")
_add("cg height for half", "height taken where track belongs",
     "Draw the car from behind. Which arm holds it down, which one tips it?",
     "Half the track holds the car down, the height of its centre of gravity tips it: a = g t / (2 h).")

# The tyre
_add("grip falls left out", "grip taken as the same at every load",
     "Does twice the load give twice the side force?",
     "The more load on a tyre, the less side force it gives for each newton. Use the grip at its own load.")
_add("one tyre's loss", "the loss of one tyre taken for the pair's",
     "How many tyres are there on the axle?",
     "Working it out for the pair, k dF squared comes in twice, once for each tyre: 2 k dF squared.")
_add("difference for transfer", "the difference between the wheels taken for the transfer",
     "If one gains dF and the other loses dF, how far apart are they?",
     "The two wheels end up 2 dF apart. The formula wants dF, what one of them gains.")
_add("transfer not squared", "the loss taken to go with the transfer itself",
     "Try it: half the transfer. Is half the loss gone, or more?",
     "The loss goes with dF squared: twice the transfer costs four times as much.")
_add("outside gains what inside loses", "the outside tyre taken to gain all that the inside one loses",
     "Look at the curve: is the step up as large as the step down?",
     "The curve bends over. For the same step in load the outside tyre gains less side force than the inside one loses.")
_add("outside only", "the outside tyre's gain counted alone",
     "What happened at the inside tyre meanwhile?",
     "The outside tyre gains, the inside one loses more. Only the sum of both pushes the car round.")
_add("inside tyre nothing", "the inside tyre taken to give nothing",
     "Does the inside tyre still carry load?",
     "As long as it carries load it gives side force. Count both tyres.")
_add("sum of two peaks", "the two best values added, though they come at different slip angles",
     "Do both tyres reach their best at the same slip angle?",
     "The two tyres point the same way and slip by the same angle. "
     "The axle's best is the largest sum at one slip angle.")
_add("more load more grip", "more load taken as more grip for each newton",
     "Divide side force by load at a small and at a large load.",
     "Side force rises with load, but by less than in proportion. So grip, force over load, falls.")
_add("chord read at outside", "read off at the outside tyre's load",
     "Where along the chord is the pair's average load?",
     "The average of the two tyres lies on the chord, halfway between the two loads.")
_add("curve for chord", "read off the curve where the chord belongs",
     "Do both tyres carry the average load?",
     "No tyre carries the average load. The pair's average force lies on the chord, below the curve.")

# Which end gives up first
_add("ends added", "the two ends added where one is taken from the other",
     "Do the two ends turn the car the same way?",
     "Front slip turns the car out, rear slip turns it in. Steer = L/R + front slip - rear slip.")
_add("front only", "the front alone looked at",
     "What does the rear do meanwhile?",
     "Balance is the difference between the ends. The rear's slip angle counts as much as the front's.")
_add("path angle left out", "the angle of the path left out",
     "How much steer does the corner need at walking pace?",
     "Even with no slip the wheels have to point round the corner: L/R. Slip comes on top.")
_add("slip left out", "the slip angles left out",
     "Does a tyre push sideways without slipping?",
     "A tyre gives side force only at a slip angle. Steer = L/R + front slip - rear slip.")
_add("stiff end grips", "a stiffer end taken to grip more",
     "What does uneven load cost a pair of tyres?",
     "A stiffer bar takes more load transfer at its own end. Its two tyres share their load less evenly and "
     "give less together. That end gives up sooner.")
_add("higher limit is car's limit", "the better end taken for the car's limit",
     "What does the car do when one end has no more to give?",
     "The first end to give up ends the corner. The car's limit is the smaller of the two.")
_add("average limit", "the average of the two ends taken for the car's limit",
     "Can the better end help the other out?",
     "No end can lend grip to the other. The car's limit is the smaller of the two.")
_add("limit by stiffness", "the softer end taken to give up first",
     "Is it stiffness that runs out, or tyre?",
     "An end gives up when its tyres have no more to give. A soft end may have plenty left.")
_add("balance by roll", "balance taken to follow from how far the body rolls",
     "Can two cars with the same roll angle behave differently?",
     "Roll is the sum of both ends' work. Balance is how they share it.")

# Choosing the change
_add("wrong direction", "the change that makes it worse",
     "Which end is short of grip: and does this change load that end's tyres more evenly, or less?",
     "A stiffer bar costs grip at its own end in the middle of the corner. "
     "Understeer: softer front or stiffer rear. Oversteer: softer rear or stiffer front.")
_add("both ends at once", "two changes at once",
     "If it is better afterwards, which of the two was it?",
     "Make one change, at one end, then measure. With two changes you learn nothing about either.")
_add("bar for entry", "a bar used for what dampers do",
     "Is the body still moving at that moment?",
     "On the way in and on the way out the body moves, and dampers carry part of the load transfer. "
     "In the middle it is still, and bars do their work.")
_add("no hole left", "a hole that does not exist",
     "Look at the car sheet: which hole is fitted, and how many are there?",
     "There is nothing left at this end. Do the mirror of it at the other end.")
_add("lifted end changed", "a change at an end whose inside wheel is already up",
     "Can that bar take any more load off a wheel that is in the air?",
     "With the inside wheel up, a stiffer bar at that end does nothing more in the middle of the corner.")
_add("speed by stiffness", "stiffer taken as faster",
     "What did the change do to the smaller of the two limits?",
     "The car is faster when the smaller limit rises. A stiffer end may lower it.")
_add("balance moves fully", "both limits taken to move by the same amount",
     "Look at each end's limit by itself.",
     "What one end gives up the other does not quite gain. Work out both.")
_add("change far too large", "several steps where one will do",
     "How much of the gap does one step close?",
     "Take the smallest step that closes the gap. Past balance the other end becomes the problem.")
_add("opposite change", "the mirror change, at the wrong end",
     "At this end, does it want more of the roll moment or less?",
     "Stiffer at the end with grip to spare, softer at the end that is short.")
_add("measure skipped", "measuring left for later",
     "How will you know what the change did?",
     "Without a figure from before and one from after, nobody can say what the change did.")
_add("safety skipped", "the checks left for later",
     "What must be right before anybody gets under the car, and before it moves?",
     "Support the car, use the maker's torque figures, and check the links through full travel before a run.")
_add("works on a belief", "no reason from loads and tyres",
     "What does the change do to the four wheel loads?",
     "Say what the change does to the loads, then what the tyres make of that.")
