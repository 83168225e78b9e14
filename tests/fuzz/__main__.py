"""Feed hostile input by the hundred thousand, and say how it went.

    python -m tests.fuzz                      100,000 inputs of each kind, half of them by each way
    python -m tests.fuzz units --inputs 5000  fewer, of one kind

One way is hypothesis: seeds with changes that keep most of their shape. The other is atheris, which watches
which lines of the package an input reaches and goes on from those that reach new ones. Each runs in a program
of its own with a bound on its memory. Each sort of fault is shown once, with the file that holds its input;
any fault gives exit code 1.
"""

from __future__ import annotations

import argparse
import platform
import subprocess
import sys

from tests.fuzz.worker import HEAD, WAYS

KINDS = ("sheets", "answers", "typed", "runs", "units")  # as in targets.py, which loads slowly


def main() -> int:
    """Run each kind by each way; 0 when no fault was found."""
    args = arguments()
    print(f"{platform.platform()}, Python {platform.python_version()}", flush=True)
    print(HEAD, flush=True)
    codes = [
        subprocess.run(
            [sys.executable, "-m", "tests.fuzz.worker", kind, way, str(share), str(args.seed)]
        ).returncode
        for kind in args.kinds or KINDS
        for way, share in zip(args.ways, shares(args.inputs, len(args.ways)), strict=True)
    ]
    return int(any(codes))


def shares(inputs: int, ways: int) -> list[int]:
    """Parts that add up to the whole."""
    return [inputs // ways + (place < inputs % ways) for place in range(ways)]


def arguments() -> argparse.Namespace:
    """What the command line asks for."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("kinds", nargs="*", metavar="KIND", help=f"of {', '.join(KINDS)}; all when left out")
    parser.add_argument("--inputs", type=int, default=100_000, metavar="N", help="of each kind")
    parser.add_argument("--seed", type=int, default=1, metavar="N")
    parser.add_argument("--ways", nargs="+", choices=WAYS, default=list(WAYS))
    args = parser.parse_args()
    if unknown := set(args.kinds) - set(KINDS):
        parser.error(f"no kind {', '.join(sorted(unknown))}; there are {', '.join(KINDS)}")
    return args


if __name__ == "__main__":
    sys.exit(main())
