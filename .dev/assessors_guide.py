"""Write the blueprint into the assessor's guide, from the question bank as it is now.

    python .dev/assessors_guide.py            write it
    python .dev/assessors_guide.py --check    write nothing; 1 when it is stale
"""

import argparse
import re
import sys
from pathlib import Path

from rollmodel.marking.blueprint import blueprint
from rollmodel.questions.bank import all_questions

GUIDE = Path(__file__).resolve().parent.parent / "solutions" / "assessors-guide.md"
BEGIN, END = "<!-- blueprint: made by .dev/assessors_guide.py -->\n", "<!-- end of the blueprint -->"


def main() -> int:
    """Write or check."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--check", action="store_true", help="write nothing; 1 when it is stale")
    fresh = renewed(GUIDE.read_text(encoding="utf-8"))
    if parser.parse_args().check:
        return int(fresh != GUIDE.read_text(encoding="utf-8"))
    GUIDE.write_text(fresh, encoding="utf-8", newline="\n")
    return 0


def renewed(text: str) -> str:
    """The guide with the blueprint of today."""
    whole = re.compile(re.escape(BEGIN) + ".*?" + re.escape(END), re.DOTALL)
    return whole.sub(lambda _: f"{BEGIN}\n{blueprint(all_questions())}\n{END}", text)


if __name__ == "__main__":
    sys.exit(main())
