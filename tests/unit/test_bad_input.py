"""Hostile input: a small share of what `python -m tests.fuzz` feeds, and what it once found."""

import json
import time
import tracemalloc
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from rollmodel import units
from rollmodel.questions.answers import AnswerFile
from rollmodel.units import UnitError, parse
from tests.fuzz.by_rules import inputs
from tests.fuzz.targets import TARGETS, Fault, nothing_is_run, refused, run_csv, timed

SHARE = {"sheets": 50, "answers": 40, "typed": 60, "runs": 40, "units": 200}


@pytest.mark.parametrize("kind", TARGETS)
def test_hostile_input_ends_as_promised(kind, tmp_path):
    @settings(max_examples=SHARE[kind], database=None, suppress_health_check=list(HealthCheck))
    @given(inputs(TARGETS[kind]))
    def feed(data):
        timed(TARGETS[kind], data, tmp_path)

    feed()


@pytest.mark.parametrize("kind", TARGETS)
def test_some_of_the_seeds_are_taken(kind, tmp_path):
    taken = [TARGETS[kind].feed(data, tmp_path) for data in TARGETS[kind].seeds()[:12]]
    assert sum(taken) >= 3, "nothing hostile is tried beyond the front door when nothing gets in"


ENDLESS = {
    "a tower of powers": "9**9**9",
    "a tower of powers with a unit": "1 N/mm**9**9**9",
    "a tower by carets": "1 m^9^9^9^9^9",
    "a negative tower": "1 m^-9^-9^-9",
    "a huge number": "1e9999 N/mm",
    "a huge exponent": "1e" + "9" * 50 + " N/mm",
    "a long number": "9" * 5000 + " N/mm",
    "nested": "1 " + "(" * 29 + "m" + ")" * 29,
    "nested and open": "((((" * 15,
    "nested far too deep": "1 " + "(" * 100_000 + "m",
    "a long product": "1 " + "N*" * 28 + "N",
    "a product without end": "1 " + "N*" * 5_000_000 + "N",
    "ten megabytes of figures": "9" * 10_000_000,
    "ten megabytes of blanks": " " * 10_000_000 + "1 mm",
    "ten megabytes of one letter": "1 " + "m" * 10_000_000,
    "ten megabytes after a fraction": "1/2 " + "m" * 10_000_000,
    "ten megabytes of commas": "1," * 5_000_000,
    "prefixes": "1 " + "kilo" * 14 + "m",
    "code": "1 __import__('os').system('true')",
    "a function": "(lambda: 0)() N",
    "a comprehension": "[x for x in (1,)] mm",
    "a format": "{0.__class__} mm",
    "a format of a percent": "%(x)s mm",
    "an escape": "1 \\N{BEL}",
}


@pytest.mark.parametrize("text", ENDLESS.values(), ids=ENDLESS.keys())
@pytest.mark.parametrize("kind", ["rate", "share", "ratio"])
def test_a_unit_string_never_runs_and_never_takes_a_second(kind, text):
    with nothing_is_run():
        start = time.process_time()
        with pytest.raises(UnitError) as caught:
            parse(text, kind)
        units.family_of(text[:1000])
    assert time.process_time() - start < 1.0
    refused(caught.value)


def test_a_huge_string_is_not_copied_for_its_message():
    text = "m" * 10_000_000
    tracemalloc.start()
    with pytest.raises(UnitError):
        parse(text, "rate")
    _, most = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert most < 1_000_000  # bytes; the string itself has ten times that


def test_the_watch_on_running_code_sees_it():
    for code in ("eval('1')", "__import__('this_is_no_module')", "open('/dev/null')"):
        with pytest.raises(Fault, match="a unit string led to"), nothing_is_run():
            exec_it(code)


def exec_it(code):
    """Run a piece of code, as a careless reader of units would."""
    eval(code)


@given(st.text(max_size=80), st.sampled_from(sorted(units.KINDS)))
def test_any_text_is_a_value_or_one_sentence(text, kind):
    try:
        value = parse(text, kind)
    except UnitError as error:
        refused(error)
    else:
        assert isinstance(value, float) and abs(value) < float("inf")


def test_a_control_character_behind_a_fraction_is_not_said_again():
    with pytest.raises(UnitError, match='write "31.5 Z[?]e/g"'):
        parse("31 2/4Z\x00e/g", "roll gradient")


def test_a_file_of_runs_of_one_very_long_line(tmp_path: Path):
    assert run_csv(b"speed [km/h],steer [deg]," + b"x" * 3_000_000, tmp_path) is False


def test_a_separator_of_files_inside_a_row_is_no_end_of_line(tmp_path: Path):
    """Lines were counted otherwise than the reader of CSV counts them, and a longer row became its index."""
    rows = b"".join(b"0,%d;2,%d;0,%d;left\n" % (n, n, n) for n in range(1, 9))
    header = b"lateral acceleration [g];steer [deg];roll [deg];direction\n"
    for sign in (b"\x1c", b"\x0c", b"\x0b", b"\xc2\x85", b"\xe2\x80\xa8"):
        assert run_csv(header + b"0,10;2,40;0,20;left" + sign + b"0;0,40;left\n" + rows, tmp_path) is False


def test_a_cell_in_quotes_over_two_lines_makes_no_longer_row(tmp_path: Path):
    """The reader of CSV took what stood too much in the first row for the names of the rows."""
    rows = b"".join(b"0,%d;2,%d;0,%d;left\n" % (n, n, n) for n in range(1, 9))
    header = b"lateral acceleration [g];steer [deg];roll [deg];direction\n"
    assert run_csv(header + b'x;y;",9\nx;y;",9;1;2\n' + rows, tmp_path) is False


@pytest.mark.parametrize(
    "content, words",
    [
        (b'"answers": [{"a\x1b[2J": 1}]', "its answers are not laid out as this package keeps them"),
        (b'"answers": 7', "its answers are not laid out as this package keeps them"),
        (b'"answers": [[]]', "its answers are not laid out as this package keeps them"),
        (b'"answers": ' + b"[" * 200_000, "it is nested far too deeply"),
        (b'"answers": [' + b"9" * 5000 + b"]", "a number in it has more digits than Python reads"),
        (b'"answers": ["\xff"]', "it is not UTF-8 text"),
    ],
)
def test_why_an_answer_file_was_set_aside_is_said_in_plain_words(tmp_path: Path, content, words):
    head = {"format": "rollmodel answers", "format_version": 1, "code_word": "blue kestrel"}
    head |= {"mode": "practice"}
    start = json.dumps(head)[:-1].encode() + b", "
    path = tmp_path / "answers-blue_kestrel-practice.json"
    path.write_bytes(start + content.replace(b"\x1b", b"\\u001b") + b"}")
    file = AnswerFile(tmp_path, "blue kestrel", "practice")
    assert file.read() == [] and len(file.notes) == 1
    assert f"could not be read: {words}. Nothing in it was changed" in file.notes[0]
    refused(ValueError(file.notes[0]))
