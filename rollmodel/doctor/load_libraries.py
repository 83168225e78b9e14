"""A program of its own: load the libraries named, and say of each how that went."""

from __future__ import annotations

import importlib
import sys


def main(names: list[str]) -> None:
    """Print one line for each name, at once: a library that ends the program leaves its own line out."""
    for name in names:
        try:
            importlib.import_module(name)
            said = "loaded"
        except BaseException as error:  # a broken library may raise anything, SystemExit among it
            said = " ".join(f"{type(error).__name__}: {error}".split())
        print(name, said, flush=True)


if __name__ == "__main__":
    main(sys.argv[1:])
