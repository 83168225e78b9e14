"""``python -m rollmodel``: the command line, where the command itself is not on the path."""

import sys

from rollmodel.cli import main

if __name__ == "__main__":
    sys.exit(main())
