"""Everything that is read from the runs of one or two setups, in one record."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from rollmodel.car import Car
from rollmodel.testday.compare import Difference, Prediction, common_range, compare, quantities_of, within
from rollmodel.testday.doubts import Doubt
from rollmodel.testday.expected import expected
from rollmodel.testday.faults import DayError
from rollmodel.testday.gradients import Gradient, gradient
from rollmodel.testday.outliers import Outlier, outliers, without
from rollmodel.testday.predict import predicted_gradient
from rollmodel.testday.runs import Setup
from rollmodel.testday.suspects import (
    Suspicion,
    about_reach,
    about_sides,
    about_steer,
    about_the_sheet,
    suspicions,
)

LARGEST_STEP = 0.65  # m/s^2, in the middle of all steps; ISO 4138 asks for 0.5, drivers miss one by some


@dataclass(frozen=True)
class Sheet:
    """What the car sheet says of a setup, and how well it knows it."""

    before: Car
    after: Car | None = None
    doubts: Sequence[Doubt] = ()  # how well it knows its numbers; none: predictions without uncertainty


@dataclass(frozen=True)
class Analysis:
    """What the runs say."""

    before: Setup
    after: Setup | None
    gradients: tuple[Gradient, ...]  # of the setup before, or of the only one
    predicted: dict[str, float]  # the sheet's for the same; empty without a sheet
    differences: tuple[Difference, ...]  # empty without a setup after
    outliers: dict[str, tuple[Outlier, ...]]  # by setup
    without_outliers: tuple  # gradients or differences as they would be without them; empty without outliers
    suspicions: tuple[Suspicion, ...]

    @property
    def setups(self) -> list[Setup]:
        """Those that were read."""
        return [self.before] + ([] if self.after is None else [self.after])

    @property
    def range(self) -> tuple[float, float]:
        """Lowest and highest lateral acceleration that count, [m/s^2]."""
        every = np.concatenate([run.lateral_acceleration for setup in self.setups for run in setup.runs])
        return float(every.min()), float(every.max())


def analyse(
    before: Setup,
    after: Setup | None = None,
    sheet: Sheet | None = None,
    radius: float | None = None,
    low: float | None = None,
    high: float | None = None,
    predicted: dict[str, Prediction] | None = None,
) -> Analysis:
    """Gradients of a setup, or of two with their difference, and what to suspect.

    Parameters
    ----------
    before : Setup
    after : Setup, optional
    sheet : Sheet, optional
        For predictions.
    radius : float, optional
        Of the circle, for a check of the steer's level, [m].
    low, high : float, optional
        Lateral accelerations between which points count, [m/s^2].
    predicted : dict of str to Prediction, optional
        The sheet's gradients where they are known already; worked out from ``sheet`` when left out.

    Raises
    ------
    DayError
        No gradient that both setups can give; too few points; runs far beyond the sheet's limit.
    """
    reach = about_reach(
        [before] if after is None else [before, after], None if sheet is None else sheet.before
    )
    if after is None:
        before = before if low is None and high is None else within(before, *_bounds(low, high))
    else:
        before, after = common_range(before, after, low, high)
    setups = [before] + ([] if after is None else [after])
    quantities = quantities_of(*setups)
    if not quantities:
        raise DayError("no column that both setups have; both need steer, or both need roll")
    found = {
        setup.name: tuple(one for quantity in quantities for one in outliers(setup, quantity))
        for setup in setups
    }
    if predicted is None:
        predicted = {} if sheet is None else _predictions(sheet, setups, quantities)
    gradients, differences = _fits(setups, quantities, predicted)
    return Analysis(
        before,
        after,
        gradients,
        {name: one.before for name, one in predicted.items()},
        differences,
        found,
        _without(setups, found, quantities, predicted),
        (*reach, *_suspicions(gradients, differences, predicted, sheet, radius)),
    )


def _bounds(low, high) -> tuple[float, float]:
    return -np.inf if low is None else low, np.inf if high is None else high


def _fits(setups, quantities, predicted) -> tuple[tuple[Gradient, ...], tuple[Difference, ...]]:
    """Gradients of the first setup, and differences where there are two."""
    gradients = tuple(gradient(setups[0], quantity) for quantity in quantities)
    if len(setups) < 2:
        return gradients, ()
    known = {name: one for name, one in predicted.items() if np.isfinite(one.change)}
    return gradients, tuple(compare(*setups, quantity, known.get(quantity)) for quantity in quantities)


def _without(setups, found, quantities, predicted) -> tuple:
    """The same without the outliers; empty where there are none, or where nothing would be left."""
    rest = [without(setup, found[setup.name]) for setup in setups]
    if not any(found.values()) or not all(one.runs for one in rest):
        return ()
    gradients, differences = _fits(rest, quantities, predicted)
    return differences or gradients


def _predictions(sheet: Sheet, setups, quantities) -> dict[str, Prediction]:
    """What the sheet says of each gradient; nan after where it is not asked about a change."""
    cars = (sheet.before, sheet.after)[: len(setups)]
    known = _uncertainties(sheet, setups)
    found = {}
    for quantity in quantities:
        values = [
            np.nan if car is None else predicted_gradient(car, setup, quantity)
            for car, setup in zip(cars, setups, strict=True)
        ]
        one = known.get(quantity)
        found[quantity] = Prediction(
            *(values + [np.nan])[:2], *((one.uncertainty_of_change, one.uncertainty) if one else (0.0, 0.0))
        )
    return found


def _uncertainties(sheet: Sheet, setups) -> dict:
    """How well the sheet knows its predictions over the range of the runs."""
    if not sheet.doubts:
        return {}
    every = np.concatenate([run.lateral_acceleration for setup in setups for run in setup.runs])
    return expected(
        sheet.before, sheet.after or sheet.before, list(sheet.doubts), max(every.min(), 0.0), every.max()
    )


def _suspicions(gradients, differences, predicted, sheet, radius) -> list[Suspicion]:
    found = suspicions(list(differences)) if differences else []
    for one in gradients:
        said = predicted.get(one.quantity)
        if said is not None and np.isfinite(said.before):
            found += about_the_sheet(one, said.before, said.uncertainty_before)
        if sheet is not None and radius is not None and one.quantity == "understeer gradient":
            found += about_steer(one, sheet.before, radius)
        found += about_sides(one)
    return list({(one.code, one.quantity, str(one.numbers)): one for one in found}.values())


def remarks(setup: Setup) -> list[str]:
    """What of ISO 4138 the runs do not follow, in sentences.

    Steps of at most 0.5 m/s^2, both ways round, three repetitions each.
    """
    steps = float(
        np.median(np.concatenate([np.diff(np.sort(run.lateral_acceleration)) for run in setup.runs]))
    )
    count = {way: sum(run.direction == way for run in setup.runs) for way in setup.directions}
    told = []
    if steps > LARGEST_STEP:
        told.append(f"Steps of about {steps:.1f} m/s^2; ISO 4138 asks for at most 0.5 m/s^2.")
    if len(count) < 2:
        told.append("One way round only; ISO 4138 asks for both.")
    if min(count.values()) < 3:
        told.append(f"{min(count.values())} run(s) one way round; ISO 4138 recommends at least three.")
    return told
