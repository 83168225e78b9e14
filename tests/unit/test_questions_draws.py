"""Numbers from a code word: the same everywhere, evenly spread, and apart from each other's."""

import subprocess
import sys
from collections import Counter
from dataclasses import replace

import pytest

from rollmodel.questions import bank, pose
from rollmodel.questions.draws import CodeWordError, Draw, tidy_code_word
from rollmodel.questions.posed import DrawError
from rollmodel.questions.records import Numeric
from rollmodel.questions.roads import by, with_changed
from rollmodel.questions.shown import Given


def test_the_stream_is_sha_256():
    """By hand: first eight bytes of SHA-256 over seed, separator and counter, as one whole number."""
    import hashlib
    digest = hashlib.sha256(b"blue kestrel\x1fnext-hole\x1f0").digest()
    assert Draw("blue kestrel", "next-hole").below(1000) == int.from_bytes(digest[:8], "big") % 1000


# Frozen: an answer file holds the code word and not the numbers, so an assessor must get the same numbers
# years later and on another machine. A change here is a change of every learner's question: it asks for
# a new version of that question, and then for new figures here.
FROZEN = {
    "next-hole": {"outer": "250 mm", "inner": "170 mm", "rate": "29 N/mm"},
    "solid-bar-held": {"force": "1000 N", "outer_diameter": "30 mm", "centre_length": "940 mm",
                       "lever": "195 mm", "shear_modulus": "78.3 GPa"},
    "rate-in-roll": {"spring_rate": "34 N/mm", "bar_rate": "31 N/mm"},
    "pair-loss": {"grip_drop": "0.055 per kN", "load": "3100 N", "transfer": "1400 N"},
}


@pytest.mark.parametrize("id", FROZEN)
def test_frozen_draws(id):
    posed = pose(bank.question(id), "blue kestrel")
    assert posed.given == FROZEN[id]


def test_frozen_letters():
    letters = pose(bank.question("class-ridge"), "blue kestrel").letters
    assert list(letters.values()) == ["eases", "once", "nothing", "twice"]


def test_another_process_draws_the_same():
    """No part of it hangs on Python's own hash, which differs from one process to the next."""
    code = ("from rollmodel.questions import bank, pose;"
            "print(pose(bank.question('next-hole'), 'blue kestrel').text)")
    told = [subprocess.run([sys.executable, "-c", code], env={"PYTHONHASHSEED": seed, "PATH": ""}, text=True,
                           capture_output=True, check=True, timeout=120).stdout for seed in ("1", "2")]
    assert told[0] == told[1] == pose(bank.question("next-hole"), "blue kestrel").text + "\n"


def test_every_number_is_as_likely():
    stream = Draw("even")
    counts = Counter(stream.below(10) for _ in range(10_000))
    chi_squared = sum((counts[n] - 1000) ** 2 / 1000 for n in range(10))
    assert chi_squared < 27.9  # 0.1 % point for 9 degrees of freedom


def test_steps_stay_tidy():
    stream = Draw("tidy")
    found = {stream.between(0.018, 0.022, 0.001) for _ in range(200)}
    assert found == {0.018, 0.019, 0.020, 0.021, 0.022}


def test_shuffling_keeps_every_item():
    orders = Counter(tuple(Draw("deal", n).shuffled("abc")) for n in range(1200))
    assert len(orders) == 6 and min(orders.values()) > 150


def test_nothing_to_pick_from_is_said():
    with pytest.raises(ValueError, match="nothing to pick from"):
        Draw("empty").pick([])


def test_code_words_that_read_alike_are_one():
    assert tidy_code_word("  Blue   KESTREL ") == "blue kestrel"


@pytest.mark.parametrize("bad", ["", "  ", "ab", "a" * 41, "kestrel!", "a_b_c", "../../etc", "krähe",
                                 "-kestrel", 7, None])
def test_code_words_refused(bad):
    with pytest.raises(CodeWordError, match="3 to 40 plain letters"):
        tidy_code_word(bad)


def test_word_question_version_and_occasion_each_change_the_numbers():
    question = bank.question("solid-bar-held")
    newer = replace(question, version=2)
    drawn = [pose(question, "blue kestrel"), pose(question, "red kestrel"), pose(newer, "blue kestrel"),
             pose(question, "blue kestrel", occasion="recall 5"),
             pose(bank.question("tube-in-roll"), "blue kestrel")]
    sizes = [(one.numbers.centre_length, one.numbers.lever, one.numbers.shear_modulus) for one in drawn]
    assert len(set(sizes)) == len(sizes)


def test_both_families_are_the_same_car():
    """Each rounded to what that family reads off: half a step at most lies between."""
    question = bank.question("solid-bar-held")
    metric, us = (pose(question, "blue kestrel", family) for family in ("metric", "US customary"))
    assert metric.numbers.centre_length == pytest.approx(us.numbers.centre_length, abs=0.0012)
    assert metric.key == pytest.approx(us.key, rel=0.06)  # size to the fourth power, in steps of 0.01 in
    assert us.given["centre_length"].endswith(" in")


def made_up(*roads, draw=lambda stream: {"rate": stream.between(20e3, 40e3, 1e3)}):
    return Numeric(id="made-up", lesson=99, aim="Test.", level=1, minutes=1, pools=("exercise",),
                   text="{rate}", hint="h", process="p", worked=("{answer}",), given={"rate": Given("rate")},
                   draw=draw,
                   kind="rate", key=lambda n: n.rate, roads=roads)


def test_a_draw_is_made_again_until_the_roads_part():
    """Below 30 N/mm this road meets the key. 30 N/mm goes too: the same car reads 171 lbf/in, just below."""
    question = made_up(by("bore left out", lambda n: n.rate * (1.0 if n.rate < 30e3 else 1.5)))
    rates = {pose(question, f"learner {n}").numbers.rate for n in range(100)}
    assert min(rates) == 31e3 and max(rates) == 40e3


def test_a_road_that_always_meets_another_is_a_fault_of_the_question():
    question = made_up(with_changed("held used in roll", rate=lambda rate: rate / 2),
                       by("per wheel for per axle", lambda n: n.rate / 2))
    with pytest.raises(DrawError, match="'made-up'.*300 tries.*held used in roll = per wheel for per axle"):
        pose(question, "blue kestrel")


def test_a_road_to_nowhere_is_a_fault_of_the_question():
    with pytest.raises(DrawError, match="gives no number"):
        pose(made_up(by("bore left out", lambda n: float("nan"))), "blue kestrel")
