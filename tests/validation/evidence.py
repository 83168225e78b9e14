"""One door for every outside check: :func:`check` asserts the figure and records it as evidence.

:func:`check_range` is the same door for a range. The records become the page that
:mod:`tests.validation.page` writes.
"""

from dataclasses import dataclass
from decimal import Decimal

PUBLISHED = "published"
SECOND_HAND = "second-hand"
NO_AUTHOR = "second-hand, author not recorded"
COMPUTED = "computed from published inputs"
SECOND_ROUTE = "computed by a second route"
COMMON_PRACTICE = "common practice"
MEMORY = "from memory"
ROUND_TRIP = "put in and got back"
ERROR = "published as an error"
TYPED = "typed in from the source"
INVENTED = "chosen or invented here, held against a range"

KINDS = {
    PUBLISHED: "the figure is printed in the source named",
    SECOND_HAND: "the figure is printed in the source named, but was read in a quotation of it",
    NO_AUTHOR: "the figure was printed, but neither author nor title was recorded: nobody can look it up "
    "from this page",
    COMPUTED: "the inputs are printed in the source; the figure was worked out from them by others than "
    "this package",
    SECOND_ROUTE: "no printed figure: another library, another method or another derivation, run in the "
    "test itself",
    COMMON_PRACTICE: "a rule of the trade, no source",
    MEMORY: "remembered, not looked up; never the only check of anything",
    ROUND_TRIP: "the figure is put in, by a road outside the package, and the package must give it back: it "
    "shows that the equation closes, not that the figure is right",
    ERROR: "a printed figure that is wrong; the package shows the slip that gives it",
    TYPED: "a constant of the package beside the same constant in the source: it shows the typing",
    INVENTED: "a number of an invented car's sheet, or a value taken when none is given, inside or outside "
    "a range from the source named",
}
NOT_COMPUTED = (TYPED, INVENTED)  # ours is a number that somebody typed


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

    @property
    def allowed(self) -> str:
        """What the page says of the tolerance."""
        return f"{self.tolerance:.3g}"

    def _with_figures_digits(self, value):
        text = f"{value:.{self.decimals + 1}f}"
        return text.removeprefix("-") if float(text) == 0 else text


@dataclass(frozen=True)
class RangeRow:
    """A range from outside beside one number of ours, which may lie outside it."""

    source: str
    result: str
    kind: str
    low: str  # as printed
    high: str
    unit: str
    ours: float
    lies: str
    because: str

    @property
    def figure(self) -> str:
        """The range as printed."""
        return f"{self.low} to {self.high}"

    @property
    def shown(self) -> str:
        """Ours, with one digit more than the range's ends."""
        decimals = max(-Decimal(end).as_tuple().exponent for end in (self.low, self.high))
        return f"{self.ours:.{max(0, decimals) + 1}f}"

    @property
    def difference(self) -> str:
        """Inside, or how far outside."""
        if self.lies == "inside":
            return "inside"
        end = self.low if self.lies == "below" else self.high
        return f"{abs(Decimal(self.shown) - Decimal(end))} {self.lies}"

    @property
    def allowed(self) -> str:
        """A range needs no tolerance."""
        return "the range" if self.lies == "inside" else "outside it, and said so"


RECORD: dict[tuple[str, str], Row | RangeRow] = {}


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
    assert (tolerance is None) == (not because), "a tolerance of one's own and its reason go together"
    within = half_last_digit(figure) if tolerance is None else tolerance
    row = _keep(Row(source, result, kind, figure, unit, float(ours), within, because))
    rounding = 1e-9 * max(abs(row.ours), within)  # a figure that ends exactly on the half digit
    assert abs(row.ours - float(figure)) <= within + rounding, (
        f"{source}, {result}: {figure} {unit} outside, {row.ours!r} ours, tolerance {within:g}"
    )


def check_range(
    source: str,
    result: str,
    low: str,
    high: str,
    ours,
    unit: str,
    kind: str,
    lies: str = "inside",
    because: str = "",
):
    """Assert where ours lies about a range from outside, and keep the row for the evidence page.

    Parameters
    ----------
    low, high : str
        The range's ends as printed.
    lies : {"inside", "below", "above"}
        Where ours lies. Outside needs ``because``: the page shows bad news with its reason.
    """
    assert lies == "inside" or because, "a number outside its range needs a reason"
    row = _keep(RangeRow(source, result, kind, low, high, unit, float(ours), lies, because))
    where = "below" if row.ours < float(low) else "above" if row.ours > float(high) else "inside"
    assert where == lies, f"{source}, {result}: {row.ours!r} {unit} lies {where} {row.figure}, not {lies}"


def _keep(row):
    assert row.kind in KINDS, f"{row.kind!r} is not one of the kinds of evidence"
    key = row.source, row.result
    assert RECORD.get(key, row).figure == row.figure, f"two figures called {row.result!r}"
    RECORD[key] = row
    return row
