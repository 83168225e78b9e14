"""Inputs made by hypothesis: good ones with a few things done to them, and bytes of no meaning."""

from __future__ import annotations

from hypothesis import HealthCheck, Phase, given, seed, settings
from hypothesis import strategies as st

PLACES = 100_000  # a place in an input is drawn as so many parts of its length
SERIES = 5000  # inputs drawn in one go; hypothesis remembers all of them meanwhile
LONGEST = 20_000  # bytes that splicing may grow an input to


def inputs(target) -> st.SearchStrategy[bytes]:
    """A seed with a few changes, or now and then bytes of no meaning."""
    start = st.sampled_from(target.seeds())
    word = st.one_of(st.sampled_from(target.words), st.binary(max_size=8))
    place = st.integers(0, PLACES)
    change = st.tuples(st.sampled_from(CHANGES), place, place, word)
    one, few = st.tuples(change), st.lists(change, min_size=2, max_size=5)
    changed = st.builds(_apply, start, st.one_of(one, one, few))
    return st.one_of(changed, changed, changed, changed, st.binary(max_size=300))


def _apply(data: bytes, changes) -> bytes:
    for change, where, other, word in changes:
        data = change(data, where * len(data) // PLACES, other * len(data) // PLACES, word)[:LONGEST]
    return data


def insert(data, at, other, word):
    """A word put in."""
    return data[:at] + word + data[at:]


def overwrite(data, at, other, word):
    """A word in place of what stood there."""
    return data[:at] + word + data[at + len(word) :]


def cut(data, at, other, word):
    """A piece taken out."""
    return data[: min(at, other)] + data[max(at, other) :]


def double(data, at, other, word):
    """A piece twice."""
    return data[: max(at, other)] + data[min(at, other) :]


def truncate(data, at, other, word):
    """The end cut off."""
    return data[:at]


def flip(data, at, other, word):
    """One bit changed."""
    return data[:at] + bytes([data[at] ^ (1 << other % 8)]) + data[at + 1 :] if at < len(data) else data


def number(data, at, other, word):
    """The next figures replaced by a word: the file stays whole, its value does not."""
    begin = next((n for n in range(at, len(data)) if chr(data[n]).isdigit()), len(data))
    end = next((n for n in range(begin, len(data)) if chr(data[n]) not in "0123456789.e-"), len(data))
    return data[:begin] + word + data[end:]


def line(data, at, other, word):
    """One line taken away, or moved to another place."""
    lines = data.splitlines(keepends=True)
    if not lines:
        return data
    moved = lines.pop(min(len(lines) * at // max(len(data), 1), len(lines) - 1))
    if other % 2:
        lines.insert(len(lines) * other // max(len(data), 1), moved)
    return b"".join(lines)


CHANGES = (insert, overwrite, cut, double, truncate, flip, line, *[number] * 6)


def run(target, count: int, number_of_seed: int, one) -> None:
    """Feed so many inputs to ``one``."""
    for done in range(0, count, SERIES):
        _series(target, min(SERIES, count - done), number_of_seed + done, one)


def _series(target, count: int, number_of_seed: int, one) -> None:
    @seed(number_of_seed)
    @settings(
        max_examples=count,
        database=None,
        deadline=None,
        suppress_health_check=list(HealthCheck),
        phases=(Phase.generate,),
        derandomize=False,
    )
    @given(inputs(target))
    def feed(data):
        one(data)

    feed()
