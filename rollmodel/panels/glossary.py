"""The words of the trade that the lessons use, each in plain words. Data alone."""

WORDS = {
    "anti-roll bar": "A bar across the car, tied to both wheels of an axle. It twists when one wheel stands "
    "higher in the body than the other, and pushes against that. Some call it a stabiliser or a"
    " sway bar.",
    "arm": "The lever at each end of the bar. The longer it is, the softer the bar works.",
    "balance": "Which end gives up first, and how far it is ahead of the other. Not the same as grip.",
    "blade": "A flat arm that can be turned. On edge it hardly bends and the bar is stiff; flat it bends"
    " easily.",
    "bushing": "The soft bearing in which the bar turns, or that holds an arm of the suspension.",
    "compliance": "The opposite of stiffness: how far a part gives for each unit of force.",
    "damper": "It pushes against speed, not against travel. While nothing moves it carries nothing.",
    "gravity's share": "The part of the roll that comes from the body's weight, once it leans to one side.",
    "grip": "The most side force that a tyre can give at the load on it; as a number, that force over the "
    "load. More load: more force, but a smaller number.",
    "lateral acceleration": "How hard the car corners. Counted in g: 1 g is the pull of gravity.",
    "limit": "The most lateral acceleration that an end, or the car, can hold.",
    "link": "The rod between the end of the bar's arm and the suspension. The holes in the arm are for it.",
    "load": "The force with which a wheel stands on the ground.",
    "load transfer": "What the outside wheel of an axle gains in a corner and the inside wheel loses.",
    "motion ratio": "Travel of a part, over travel of the wheel. Some books turn it over: ask which.",
    "oversteer": "The rear gives up first, and the tail steps out.",
    "preload": "Twist that stands in the bar while the car stands still, from links of unequal length.",
    "rate": "Force for each unit of travel. A spring's, a bar's, or what the wheel feels of either.",
    "rate at the wheel": "The rate that one wheel feels: a part's own rate, times the square of its motion "
    "ratio.",
    "roll": "The lean of the body in a corner, as an angle.",
    "roll axis": "The line about which the body leans. It runs through the roll centres of both axles.",
    "roll centre": "The height at which an axle's links carry side force straight from body to wheels.",
    "roll gradient": "Roll angle for each g of lateral acceleration.",
    "roll stiffness": "Moment that it takes to roll the body by one degree, at an axle or for the whole car.",
    "scatter": "How far the same run comes out differently when nothing was changed.",
    "slip angle": "The angle between where a tyre points and where it goes. Without it there is no side "
    "force.",
    "track": "The distance between the two wheels of an axle, middle to middle.",
    "understeer": "The front gives up first, and the car runs wide.",
    "understeer angle": "How much more the front wheels must be steered than the bend alone asks for.",
    "understeer gradient": "By how much the understeer angle grows for each g of lateral acceleration.",
    "unsprung mass": "What moves with the wheel and not with the body: wheel, hub, brake, part of the arms.",
}


def table() -> str:
    """The words in Markdown, in the order of the alphabet."""
    rows = [f"| **{word}** | {said} |" for word, said in sorted(WORDS.items())]
    return "\n".join(["| word | what it means |", "|:--|:--|", *rows])
