"""Inputs to start from, and the words that inputs of each kind are made of."""

from __future__ import annotations

import json

from rollmodel import units
from rollmodel.questions import bank, pose, right_answer
from rollmodel.sheets import to_sheet, training_car, training_cars
from tests.unit.marking_class import all_right, file_text

BIG = (
    b"9" * 400,
    b"(" * 300,
    b"\xff\xfe",
    b"\0",
    b"\xef\xbb\xbf",
    "µ²·°−–”".encode(),
    b"\r",
    b"\x1b[2J",
    b"\xed\xa0\x80",
)
NUMBERS = (
    b"0",
    b"-0",
    b"-1",
    b"1e308",
    b"1e-308",
    b"1e9999",
    b"nan",
    b"inf",
    b"-inf",
    b"0x10",
    b"1_000",
    b"1,5",
    b"1/2",
    b"9" * 30,
    b".",
    b"+",
    b"0.5",
    b"3",
    "１２".encode(),
)
UNIT_WORDS = (
    *BIG,
    *NUMBERS,
    b" N/mm",
    b" lbf/in",
    b" mm",
    b" kg",
    b" deg",
    b" g",
    b" %",
    b"**9**9**9",
    b"^9^9^9",
    b"^-9",
    b"__import__('os').system('true')",
    b"lambda:0",
    b"eval(",
    b"/0",
    b"()",
    b"[0]",
    b"{0}",
    b"kilo" * 9,
    b"*",
    b"/",
    b"^",
    b" per ",
    b"N\xc2\xb7m/deg",
    b"delta_degC",
    b"dB",
    b"\xc2\xb1",
    b"+/-",
    b"%s",
    b"\\n",
)
SHEET_WORDS = (
    *UNIT_WORDS,
    b"[front.bar]\n",
    b"[[front]]\n",
    b"[rear]\n",
    b'"""',
    b"'''",
    b" = ",
    b"\n",
    b"{a=1}",
    b"[[[[",
    b"true",
    b"1979-05-27",
    b"a.b.c.d=1\n",
    b"holes = []\n",
    b"hole = -1\n",
    b'"1e200 mm"',
    b'"0 kg"',
    b"\\u0000",
    b"\\U0001F600",
    b"blade = {}\n",
    b"angles = ['0 deg']\n",
)
ANSWER_WORDS = (
    *BIG,
    *NUMBERS,
    b'"answers": ',
    b'"text": ',
    b"null",
    b"true",
    b"{}",
    b"[]",
    b"[" * 200,
    b'{"a":' * 50,
    b'"code_word": "example"',
    b"\\ud800",
    b"\\u0000",
    b"</script>",
    b"=cmd|' /C calc'!A0",
    b"../../x",
    b"practice",
    b"assessment",
    b"2025-03-04T09:00:00+99:00",
    b"A C B D",
    b"60 N/mm",
)
RUN_WORDS = (
    *BIG,
    *NUMBERS,
    b"time [s]",
    b"speed [km/h]",
    b"steer [deg]",
    b"roll [deg]",
    b"lateral acceleration [g]",
    b"direction",
    b"run",
    b"# radius: 30 m\n",
    b"# steering ratio: 15\n",
    b"# front hole: 2\n",
    b"left",
    b"right",
    b",",
    b";",
    b"\t",
    b"\n",
    b'"',
    b",,,,,,,,",
    b"\n\n\n",
    b"# ",
    b"=1+1",
    b"PK\x03\x04",
)


def car_sheets() -> list[bytes]:
    """The training cars in both families, and what is no sheet at all."""
    files = [path.read_bytes() for path in training_cars().values()]
    cars = [
        to_sheet(training_car(name), family).encode() for name in training_cars() for family in units.FAMILIES
    ]
    deep = [
        b"a = " + b"[" * 2000,
        b"a = " + b"{b=" * 1000,
        b".".join([b"a"] * 700) + b" = 1",
        b"x = " + b"9" * 5000,
    ]
    return [*files, *cars, *deep, b"", b"\xff\xfe" + "mass".encode("utf-16-le")]


def answer_files() -> list[bytes]:
    """A paper answered right, in part, and files that are damaged."""
    pool = [one for one in bank.all_questions() if "assessment" in one.pools]
    small = [all_right("blue kestrel", pool[start : start + 3]) for start in range(0, len(pool), 3)]
    texts = [file_text("blue kestrel", answers) for answers in small]
    plain = json.dumps(json.loads(texts[0]))
    return [
        *(text.encode() for text in texts),
        plain.encode(),
        plain[:-40].encode(),
        b"[" * 100_000,
        b"",
        b"{}",
    ]


def typed_answers() -> list[bytes]:
    """Each byte of the first place is another question; its right answer, and odd texts."""
    posed = [pose(one, "blue kestrel", "metric", "practice") for one in bank.all_questions()][:256]
    right = [bytes([place]) + right_answer(one).encode() for place, one in enumerate(posed)]
    texts = ("", "A", "B C A", "a,b,c", "front", "-0.5 deg/g", "60", "60 N/m", "1/2", "12 %", "\u202e60")
    return [*right, *(bytes([which]) + text.encode() for which, text in enumerate(texts * 3))]


def run_files() -> list[bytes]:
    """Simulated runs, short ones by hand in other forms, and what is no file of runs."""
    steps = [(0.1 * n, 20 + 3 * n, 2.0 + 0.4 * n, 0.2 * n) for n in range(1, 9)]
    plain = "lateral acceleration [g],steer [deg],roll [deg],direction\n" + "".join(
        f"{a:.2f},{s:.2f},{r:.2f},{way}\n" for way in ("left", "right") for a, _, s, r in steps
    )
    comma = plain.replace(",", ";").replace(".", ",")
    speed = "# radius: 30 m\n# direction: left\nspeed [km/h]\tsteer [deg]\troll [deg]\n" + "".join(
        f"{v}\t{s}\t{r}\n" for _, v, s, r in steps
    )
    timed = "time [s],speed [km/h],steering wheel [deg],roll [deg]\n" + "".join(
        f"{0.5 * row:.1f},{25 + step * 4},{30 + step * 5 + row % 3 * 0.1:.1f},{0.2 * step:.2f}\n"
        for row in range(80)
        for step in [row // 10]
    )
    texts = [plain, comma, speed, "# steering ratio: 15\n" + timed, "# rear hole: 2\n" + plain]
    return [
        *(text.encode() for text in texts),
        plain.encode("utf-16"),
        b"",
        b"a,b\n",
        b"PK\x03\x04" + b"\0" * 100,
    ]


def unit_strings() -> list[bytes]:
    """Good values of every kind, and strings that are meant to run for ever or to run at all."""
    kinds = list(enumerate(units.KINDS.values()))
    good = [bytes([place]) + one.encode() for place, kind in kinds for one in kind.examples]
    known = [bytes([place]) + f"12.5 {unit}".encode() for place, kind in kinds for unit in kind.usual]
    bad = (
        "9**9**9",
        "1e9999",
        "1 m**9**9**9",
        "1 " + "(" * 50 + "m" + ")" * 50,
        "1 m^9^9^9^9",
        "1 " + "N*" * 28 + "N",
        "1 __import__('os').system('true')",
        "1 (lambda:0)()",
        "1 m" * 20,
        "x" * 100_000,
    )
    return [*good, *known, *(bytes([place]) + text.encode() for place, text in enumerate(bad))]
