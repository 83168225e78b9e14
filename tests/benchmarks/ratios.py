"""Speed of the equations beside another way, with the machine: ``python -m tests.benchmarks.ratios``.

The statistics behind it come from pytest-benchmark::

    python -m pytest tests/benchmarks/bench_setup_map.py -o addopts=--import-mode=importlib
"""

import os
import platform
import subprocess
import sys
import time

import numpy as np

from tests.benchmarks import point_by_point, whole_map
from tests.unit.plain_car import CAR

IMPORTS = {
    "import rollmodel": "import rollmodel",
    "every module of rollmodel.physics": "from rollmodel.physics import balance",
    "numpy and pint's registry": "import numpy, pint; pint.UnitRegistry()",
}


def seconds(work, times=1, clock=time.process_time):
    """The shortest of several runs, in processor time: what other programs do meanwhile hardly counts."""
    spent = []
    for _ in range(times):
        start = clock()
        work()
        spent.append(clock() - start)
    return min(spent)


def setup_map_lines():
    at = whole_map.accelerations(200)
    plain = seconds(lambda: point_by_point.setup_map(CAR, at))
    whole = {
        number: seconds(lambda n=number: whole_map.setup_map(CAR, whole_map.accelerations(n)), 15)
        for number in (200, 400, 800)
    }
    yield f"setup map, 9 hole pairs x 200 accelerations, point by point: {plain:.2f} s"
    yield f"the same in one call: {1e3 * whole[200]:.0f} ms, {plain / whole[200]:.0f} times faster"
    for number in (400, 800):
        yield (
            f"with {number} accelerations: {1e3 * whole[number]:.0f} ms, "
            f"{whole[number] / whole[number // 2]:.2f} times the half"
        )


def many_setups_lines():
    spent = {
        n: seconds(lambda n=n: whole_map.many_setups(CAR, n), 3) for n in (250_000, 1_000_000, 4_000_000)
    }
    for number, time_ in spent.items():
        yield f"roll gradient and load transfer of {number:,} setups: {time_:.2f} s"


def import_lines():
    for name, code in IMPORTS.items():
        run = [sys.executable, "-c", code]
        spent = seconds(lambda run=run: subprocess.run(run, check=True), 7, time.perf_counter)
        yield f"{name}: {1e3 * spent:.0f} ms by the clock, interpreter and all"


def main():
    print(
        f"{platform.machine()}, {os.cpu_count()} cores, "
        f"Python {platform.python_version()}, numpy {np.__version__}"
    )
    for lines in (setup_map_lines, many_setups_lines, import_lines):
        for line in lines():
            print(line, flush=True)


if __name__ == "__main__":
    main()
