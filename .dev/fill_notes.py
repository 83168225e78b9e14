"""Fill the computed parts of the teaching notes, or say which are stale.

    python .dev/fill_notes.py            fill every note in place, or those named
    python .dev/fill_notes.py --check    fill nothing; name the notes that are stale; 1 when there are any

A computed part stands between two comments. The first one says what it holds:

    <!-- lesson_07.chain -->                       what the lesson says, for the first car in metric units
    <!-- lesson_08.WhenPanel front_rate=9000 -->   a panel in words, its controls at these values (SI)
    <!-- class question 7 -->                      the class question and its twin, with the right letter
    <!-- end -->
"""

import argparse
import inspect
import re
import sys
from importlib import import_module
from pathlib import Path

from rollmodel.panels.lesson import Lesson
from rollmodel.questions import class_question, right_answer

NOTES = Path(__file__).resolve().parent.parent / "lessons" / "teaching-notes"
PART = re.compile(r"<!-- ((?:lesson_\d\d\.\w+|class question \d+)[^>]*?) -->\n(.*?)<!-- end -->", re.DOTALL)


def main() -> int:
    """Fill or check; 1 when a note is stale."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("notes", nargs="*", type=Path, help="every note when left out")
    parser.add_argument("--check", action="store_true", help="fill nothing; name the notes that are stale")
    args = parser.parse_args()
    stale = [path for path in args.notes or notes() if is_stale(path, fill=not args.check)]
    return 1 if args.check and stale else 0


def is_stale(path: Path, fill: bool) -> bool:
    """Whether a note's computed parts are not what they should be; filled on the spot where asked for."""
    before = path.read_text(encoding="utf-8")
    after = filled(before)
    if after != before:
        print(f"{'filled' if fill else 'STALE'}  {path}")
        if fill:
            path.write_text(after, encoding="utf-8")
    return after != before


def notes() -> list[Path]:
    """Every note."""
    return sorted(NOTES.glob("*.md"))


def filled(text: str) -> str:
    """A note with every computed part as it is now."""
    return PART.sub(lambda found: f"<!-- {found[1]} -->\n\n{computed(found[1])}\n\n<!-- end -->", text)


def computed(wish: str) -> str:
    """What one computed part holds."""
    if wish.startswith("class question "):
        return "\n\n".join(map(asked, class_question(int(wish.split()[-1]))))
    name, *settings = wish.split()
    module, thing = name.split(".")
    found, lesson = getattr(import_module(f"rollmodel.panels.lessons.{module}"), thing), Lesson(module[-2:])
    if inspect.isclass(found):
        panel = found(lesson)
        return panel.describe(panel.compute(panel.start_values(**dict(map(setting, settings)))))
    said = found(lesson)
    return said if isinstance(said, str) else "\n".join(f"- {line}" for line in said)


def setting(text: str) -> tuple:
    """``name=value`` as a control's name and its value."""
    name, value = text.split("=")
    if value.isalpha():
        return name, value
    return name, int(value) if value.isdigit() else float(value)


def asked(posed) -> str:
    """A question with its options; each wrong one with the slip behind it and what is really so."""
    right, beliefs = right_answer(posed), {one.name: one.belief for one in posed.question.options}
    lines = [f"**{posed.text}** Right: **{right[0]}**.", ""]
    for letter, words in posed.options:
        belief = beliefs[posed.letters[letter]]
        slip = f" *Slip: {belief.name}. {' '.join(belief.why.split())}*" if belief else " *Right.*"
        lines.append(f"- {letter}. {words}{slip}")
    return "\n".join(lines)


if __name__ == "__main__":
    sys.exit(main())
