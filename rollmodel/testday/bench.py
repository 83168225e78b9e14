"""Bar rate on the bench: one end held, loads hung on the other, deflections read."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from uncertainties import ufloat

from rollmodel.car import Bar
from rollmodel.physics.bar import compliance_parts, link_rates_one_end_held
from rollmodel.testday.measured import Measured, of, straight_line

LATE = 3.0  # how many scatters the line may miss nil by before play is suspected


def bar_rate(end: str, hole: int, load, deflection, reading: float) -> Measured:
    """Rate at one link with the other held, `k_b`, from loads and deflections, [N/m].

    The deflections are fitted against the loads; the rate is the inverse of the slope.

    Parameters
    ----------
    end : {"front", "rear"}
    hole : int
        Counted from 1.
    load : sequence of float
        [N].
    deflection : sequence of float
        At the link, from any zero, [m].
    reading : float
        What each deflection is right to, plus or minus, [m].

    Returns
    -------
    Measured
        Twice as much is felt in roll, when both ends move apart.
    """
    load, deflection = np.asarray(load, dtype=float), np.asarray(deflection, dtype=float)
    line = straight_line(load, deflection)
    read = reading / np.sqrt(3) / np.sqrt(np.sum((load - load.mean()) ** 2))
    rate = 1 / ufloat(abs(line.slope), max(read, np.nan_to_num(line.slope_uncertainty)))
    return of(
        rate,
        f"{end} bar rate",
        f"{end} bar at hole {hole}, one end held",
        "rate",
        f"bench, {len(load)} loads",
        _notes(load, deflection, line),
    )


def _notes(load, deflection, line) -> list[str]:
    scatter = f"Scatter about the straight line {1000 * line.scatter:.2f} mm."
    notes = [f"{scatter} In roll each link feels twice this rate."]
    first = int(np.argmin(load))
    rest = np.arange(len(load)) != first
    if len(load) > 4:
        other = straight_line(load[rest], deflection[rest])
        gap = other.intercept + other.slope * load[first] - deflection[first]
        if abs(gap) > LATE * max(other.scatter, 1e-6):
            notes.append(
                f"The lightest load lies {1000 * abs(gap):.1f} mm off the line of the others: play in the "
                "links or bushings? Start above it."
            )
    if line.bends:
        notes.append("The points bend: something slips, yields or is short of travel.")
    return notes


def calculated_rate(bar: Bar, hole: int) -> float:
    """What the sheet's sizes, or its rates, give for the same, one end held, [N/m].

    Parameters
    ----------
    bar : Bar
    hole : int
        Counted from 1.
    """
    return float(link_rates_one_end_held(bar)[hole - 1])


def steel_factor(bar: Bar, hole: int, rate: float) -> float:
    """Factor on both moduli that brings the calculated rate to the measured one, [-].

    The steel's part of the compliance goes as one over the moduli; bushings and links do not.

    Parameters
    ----------
    bar : Bar
    hole : int
        Counted from 1.
    rate : float
        Measured, one end held, [N/m].

    Returns
    -------
    float
        nan where bushings and links alone are softer than the measured rate.

    Notes
    -----
    Derived here. The new moduli are working figures: they stand for all that the sizes do not say.
    """
    parts = {name: compliance[hole - 1] for name, compliance in compliance_parts(bar).items()}
    steel = parts["twist"] + parts["arm"] + parts["centre bending"]
    left = 1 / (2 * rate) - parts["bushing"] - parts["link"]
    return float(steel / left) if left > 0 else float("nan")


def with_steel(bar: Bar, factor: float) -> Bar:
    """The bar with both moduli multiplied by a factor, [-]; with its rates so where those are given."""
    if bar.rates is not None:
        return replace(bar, rates=tuple(factor * rate for rate in bar.rates))
    return replace(bar, shear_modulus=factor * bar.shear_modulus, youngs_modulus=factor * bar.youngs_modulus)
