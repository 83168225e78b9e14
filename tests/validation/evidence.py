"""One door for every outside check: :func:`check` asserts the figure and records it as evidence.

The records become the page that :mod:`tests.validation.page` writes.
"""

from dataclasses import dataclass
from decimal import Decimal

PUBLISHED = "published"
SECOND_HAND = "second-hand"
COMPUTED = "computed from published inputs"
SECOND_ROUTE = "computed by a second route"
COMMON_PRACTICE = "common practice"
MEMORY = "from memory"

KINDS = {
    PUBLISHED: "the figure is printed in the source named",
    SECOND_HAND: "the figure is printed in the source named, but was read in a quotation of it",
    COMPUTED: "the inputs are printed in the source; the figure was worked out from them by others than "
    "this package",
    SECOND_ROUTE: "no printed figure: another library, another method or another derivation, run in the "
    "test itself",
    COMMON_PRACTICE: "a rule of the trade, no source",
    MEMORY: "remembered, not looked up; never the only check of anything",
}


@dataclass(frozen=True)
class Row:
    """One figure from outside beside ours."""

    source: str
    result: str
    kind: str
    figure: str  # as printed
    unit: str
    ours: float
    tolerance: float
    because: str  # why the tolerance is wider than half the last printed digit; empty when it is not

    @property
    def decimals(self) -> int:
        """Digits after the point in the figure as printed."""
        return max(0, -Decimal(self.figure).as_tuple().exponent)

    @property
    def shown(self) -> str:
        """Ours, with one digit more than the figure."""
        return self._with_figures_digits(self.ours)

    @property
    def difference(self) -> str:
        """Ours less the figure, with one digit more than the figure."""
        return self._with_figures_digits(float(Decimal(self.shown) - Decimal(self.figure)))

    def _with_figures_digits(self, value):
        text = f"{value:.{self.decimals + 1}f}"
        return text.removeprefix("-") if float(text) == 0 else text


RECORD: dict[tuple[str, str], Row] = {}


def half_last_digit(figure: str) -> float:
    """Half a unit in the last printed place: ``"0.0194"`` gives 0.00005, ``"195"`` gives 0.5."""
    return 0.5 * 10.0 ** Decimal(figure).as_tuple().exponent


def check(
    source: str,
    result: str,
    figure: str,
    ours,
    unit: str = "",
    kind: str = PUBLISHED,
    tolerance: float | None = None,
    because: str = "",
):
    """Assert that ours agrees with a figure from outside, and keep the row for the evidence page.

    Parameters
    ----------
    source : str
        Short name of the source, as in the heading of its file.
    result : str
        What the figure is of, in the words an engineer would use.
    figure : str
        The outside figure as printed: its digits set the tolerance.
    ours : float
        From `rollmodel.physics`, computed now.
    tolerance : float, optional
        Half the last printed digit when left out; anything wider needs ``because``.
    """
    assert kind in KINDS, f"{kind!r} is not one of the kinds of evidence"
    assert (tolerance is None) == (not because), "a tolerance of one's own and its reason go together"
    within = half_last_digit(figure) if tolerance is None else tolerance
    row = Row(source, result, kind, figure, unit, float(ours), within, because)
    assert RECORD.get((source, result), row).figure == figure, f"two figures called {result!r}"
    RECORD[source, result] = row
    rounding = 1e-9 * max(abs(row.ours), within)  # a figure that ends exactly on the half digit
    assert abs(row.ours - float(figure)) <= within + rounding, (
        f"{source}, {result}: {figure} {unit} outside, {row.ours!r} ours, tolerance {within:g}"
    )
