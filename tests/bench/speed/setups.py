"""The setup map and a million setups, beside one setup at a time."""

from tests.bench.speed.figure import Aim, Figure
from tests.benchmarks import point_by_point, whole_map
from tests.benchmarks.ratios import seconds
from tests.unit.plain_car import CAR

TITLE = "Setups at once"
HOW = """\
Processor time, the shortest of the repeats. The map holds slip angles of both ends for every pair of
holes and each lateral acceleration, and the limits. The other way takes one setup and one acceleration at
a time, with scipy's `brentq` and its bounded minimiser; both give the same to 1e-8 (`tests/benchmarks/`).
A million setups are roll gradient and both load transfers on a grid of bar rates; one at a time was
measured on a few hundred and multiplied up.
"""
MILLION = 1_000_000


def figures(short: bool) -> list[Figure]:
    """The map and the million."""
    number, times, few = (200, 3, 100) if short else (200, 15, 900)
    at = whole_map.accelerations(number)
    whole = seconds(lambda: whole_map.setup_map(CAR, at), times)
    plain = seconds(lambda: point_by_point.setup_map(CAR, at))
    many = seconds(lambda: whole_map.many_setups(CAR, MILLION), 3)
    one_each = MILLION / few * seconds(lambda: point_by_point.many_setups(CAR, few))
    return [
        Figure(
            f"setup map, 9 pairs of holes x {number} accelerations",
            *(1e3 * whole, "ms", 1e3 * plain, "point by point"),
            Aim("times better", 100),
        ),
        Figure("a million setups", many, "s", one_each, "one at a time", Aim("below", 1)),
    ]
