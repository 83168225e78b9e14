"""How much room words take on a slide, and where a block that is too long is divided.

Lines are reckoned from the number of letters. That is rough, and the room left on a slide allows for it; the
browser's check that nothing is cut off is the judge.
"""

from __future__ import annotations

from copy import copy
from math import ceil
from textwrap import wrap

from bs4 import Tag

from rollmodel.handouts.pieces import Item, Predict

ROOM = 14.5  # lines of body text after which a slide takes no more
FULL = 15.5  # lines that one list or table, with a few words before it, may take before it is divided
LETTERS, INDENT = 78, 3  # in a line, and what a point of a list leaves of it free
LISTS = ("ul", "ol")
GUTTER = 1  # letters between two columns
DOUBT = 1  # line: columns are not as wide as their words tell
DIRECTIONS = 4.5  # lines: the three of a prediction, and the note below


def lines_of_item(item: Item) -> float:
    """About how many lines a question takes, its options included."""
    return sum(0.5 + ceil(len(words) / LETTERS) for words in (item.text, *(text for _, text in item.options)))


def lines_of_prediction(predict: Predict) -> float:
    """About how many lines a prediction takes."""
    return DIRECTIONS + ceil(len(predict.question) / LETTERS)


def parts(block: Tag) -> list[Tag]:
    """A list by its points and a table by its rows, where the whole is too long for one slide."""
    if lines_of(block) <= _room_for(block):
        return [block]
    if block.name in LISTS:
        return _divided(block, block.find_all("li", recursive=False))
    if block.name == "table":
        return _divided(block, block.select("tbody tr"))
    return [block]


def _divided(block: Tag, rows: list[Tag]) -> list[Tag]:
    """Copies of a list or table, each with as many rows as there is room for."""
    shares, start = [[]], int(block.get("start", 1))
    room = _room_for(block) - _head(block)
    for row in rows:
        if shares[-1] and sum(map(lines_of, [*shares[-1], row])) > room:
            shares.append([])
        shares[-1].append(row)
    made = []
    for share in shares:
        made.append(_copy(block, {rows.index(row) for row in share}))
        if block.name == "ol":
            made[-1]["start"] = start
            start += len(share)
    return made


def _room_for(block: Tag) -> float:
    return FULL - (DOUBT if block.name == "table" else 0)


def _head(block: Tag) -> float:
    return lines_of(block.thead.tr) if block.name == "table" and block.thead else 0


def _copy(block: Tag, kept: set[int]) -> Tag:
    """The block with these rows alone."""
    other = copy(block)
    rows = other.select("tbody tr") if block.name == "table" else other.find_all("li", recursive=False)
    for number, row in enumerate(rows):
        if number not in kept:
            row.extract()
    return other


def lines_of(block: Tag) -> float:
    """About how many lines a block takes, the space below it included."""
    if block.name == "tr":
        cells = block.find_all(("th", "td"))
        return 0.25 + max(_lines_in_column(cell, share) for cell, share in _columns(cells))
    if block.name == "table":
        return 0.5 + sum(map(lines_of, block.find_all("tr")))
    if block.name in LISTS:
        return 0.3 + sum(map(lines_of, block.find_all("li", recursive=False)))
    if block.math and block.math.get("display") == "block":
        return 3.0
    return 0.4 + ceil(len(block.get_text()) / (LETTERS - INDENT if block.name == "li" else LETTERS))


def _lines_in_column(cell: Tag, share: float) -> int:
    """A narrow column breaks between words, as a reader of the number of letters alone would not tell."""
    return len(wrap(cell.get_text(), max(1, int(share * LETTERS - GUTTER)))) or 1


def _columns(cells: list[Tag]):
    """Each cell of a row with its share of the width: a column is wide where its words are many."""
    table = cells[0].find_parent("table")
    longest = [
        max(len(row.find_all(("th", "td"))[n].get_text()) for row in table.find_all("tr"))
        for n in range(len(cells))
    ]
    weights = [max(8, length) ** 0.75 for length in longest]
    return [(cell, weight / sum(weights)) for cell, weight in zip(cells, weights, strict=True)]
