"""A lesson's pieces as slides: one idea on each, and no more lines than the back row can read.

Lines are reckoned from the number of letters. That is rough, and the room left on a slide allows for it; the
browser's check that nothing is cut off is the judge.
"""

from __future__ import annotations

from copy import copy
from dataclasses import dataclass, field
from html import escape
from math import ceil

from bs4 import BeautifulSoup, Tag

from rollmodel.handouts.pieces import ClassVote, Item, Pictures, Predict, Questions, Ran, Said, Shot, Words
from rollmodel.handouts.prose import HEADINGS, blocks, is_title

ROOM = 9  # lines of body text after which a slide takes no more
FULL = 15  # lines that one list or table, with a few words before it, may take before it is divided
SHORT_WORDS = 3.5  # lines: "a few words"
LETTERS = 78  # in a line
TALL, LOW = 0.6, 0.49  # height over width of a picture
SHORT = 280  # letters that fit below a picture without taking from it
LISTS = ("ul", "ol")
BLOCKS = (*LISTS, *HEADINGS, "p", "table")
NEXT = "Next"  # the lesson that follows


@dataclass(frozen=True)
class Slide:
    """One slide: words as HTML, a picture with words, a prediction or a question.

    ``kind`` is the name of its part in the template.
    """

    kind: str
    title: str
    html: str = ""
    shot: Shot | None = None
    predict: Predict | None = None
    item: Item | None = None
    note: str = ""
    words: str = ""  # where those of a picture stand: "beside", "below" or "after" it


@dataclass
class Pile:
    """Blocks that wait for their slide."""

    title: str = ""
    blocks: list[Tag] = field(default_factory=list)

    @property
    def lines(self) -> float:
        return sum(map(lines_of, self.blocks))

    def take(self) -> list[Slide]:
        """The slide of what has been piled up, if anything has."""
        html, self.blocks = "\n".join(map(str, self.blocks)), []
        return [Slide("words", self.title, html)] if html else []


def slides(ran: Ran) -> list[Slide]:
    """Every slide of a lesson, the title first."""
    found, pile = [Slide("title", ran.title)], Pile(ran.title)
    for piece in ran.pieces:
        if isinstance(piece, Words):
            found += _words(blocks(piece.text), pile)
        else:
            found += pile.take() + _slides_of(piece, pile.title)
    return found + pile.take()


def _slides_of(piece, heading: str) -> list[Slide]:
    """The slides of a piece that is more than prose."""
    if isinstance(piece, Pictures):
        return _pictures(piece, heading)
    if isinstance(piece, Questions):
        count = len(piece.items)
        names = [f"{heading}: question {n} of {count}" for n in range(1, count + 1)]
        return [Slide("question", name, item=one) for name, one in zip(names, piece.items, strict=True)]
    if isinstance(piece, ClassVote):
        return [
            Slide("question", "Class question", item=piece.first, note="Alone first. Then show hands."),
            Slide("question", "The twin question", item=piece.twin, note="After the talk. Show hands again."),
        ]
    return _said(piece)


def _pictures(piece: Pictures, heading: str) -> list[Slide]:
    """The prediction stands before the picture that answers it."""
    made = [Slide("predict", heading, predict=piece.predict)] if piece.predict else []
    for shot in (piece.main, *piece.others):
        made.append(Slide("picture", piece.title, shot=shot, words=place_of_words(shot)))
        if made[-1].words == "after":
            made.append(Slide("words", piece.title, f"<p>{escape(shot.words)}</p>"))
    return made


def place_of_words(shot: Shot) -> str:
    """Where a picture's words leave it the most room: beside a tall one, below a low one, else after it."""
    width, height = shot.size
    if height > TALL * width:
        return "beside"
    return "below" if height <= LOW * width and len(shot.words) <= SHORT else "after"


def _said(piece: Said) -> list[Slide]:
    """A panel's further words, from its own HTML; loose words lead what follows them."""
    pile, found = Pile(piece.title), []
    for one in _flat(BeautifulSoup(piece.html, "html.parser")):
        found += _put(one if one.name in BLOCKS else _wrapped(one), pile)
    return found + pile.take()


def _flat(page: Tag):
    """What stands one below the other, inside divisions too; blocks keep their distance without breaks."""
    for one in page.find_all(recursive=False):
        if one.name in ("div", "section"):
            yield from _flat(one)
        elif one.name != "br":
            yield one


def _wrapped(one: Tag) -> Tag:
    return BeautifulSoup(f'<p class="lead">{one}</p>', "html.parser").p


def _words(found: list[Tag], pile: Pile) -> list[Slide]:
    """Fill slides with blocks. A heading begins another; bold words alone in a line do so for this piece."""
    made, heading = [], pile.title
    for one in found:
        title = _title(one)
        if "caution" in one.get("class", ""):
            made += _alone(one, "Cautions", pile)
        elif one.get_text().startswith(NEXT):
            made += _alone(one, NEXT, pile)
        elif title is None:
            made += _put(one, pile)
        elif one.name != "h1":  # the lesson's own title has its slide
            made += pile.take()
            pile.title = title
            heading = title if one.name in HEADINGS else heading
    if pile.title != heading:
        made += pile.take()
        pile.title = heading
    return made


def _alone(block: Tag, title: str, pile: Pile) -> list[Slide]:
    """A slide of its own, or more where it is long."""
    return [*pile.take(), *(Slide("words", title, str(one)) for one in _parts(block))]


def _title(block: Tag) -> str | None:
    """The words of a block that is a title."""
    return block.get_text().strip().rstrip(".") if is_title(block) else None


def _put(block: Tag, pile: Pile) -> list[Slide]:
    """Add a block, in parts where it is too long, and give the slides that became full."""
    made = []
    for one in _parts(block):
        together = pile.lines + lines_of(one)
        if together > ROOM and (pile.lines > SHORT_WORDS or together > FULL):
            lead = _taken_back(pile)
            made += pile.take()
            pile.blocks += lead
        pile.blocks.append(one)
    return made


def _taken_back(pile: Pile) -> list[Tag]:
    """The last blocks of a pile that go with what follows them: a title, or words that end with a colon."""
    lead = []
    while pile.blocks and "lead" in pile.blocks[-1].get("class", ""):
        lead.insert(0, pile.blocks.pop())
    return lead


def _parts(block: Tag) -> list[Tag]:
    """A list by its points and a table by its rows, where the whole is too long for one slide."""
    if lines_of(block) <= FULL:
        return [block]
    if block.name in LISTS:
        return _divided(block, block.find_all("li", recursive=False))
    if block.name == "table":
        return _divided(block, block.select("tbody tr"))
    return [block]


def _divided(block: Tag, rows: list[Tag]) -> list[Tag]:
    """Copies of a list or table, each with as many rows as there is room for."""
    shares, start = [[]], int(block.get("start", 1))
    for row in rows:
        if shares[-1] and sum(map(lines_of, [*shares[-1], row])) > FULL - _head(block):
            shares.append([])
        shares[-1].append(row)
    made = []
    for share in shares:
        made.append(_copy(block, {rows.index(row) for row in share}))
        if block.name == "ol":
            made[-1]["start"] = start
            start += len(share)
    return made


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
        return 0.3 + max(ceil(len(cell.get_text()) / (share * LETTERS)) for cell, share in _columns(cells))
    if block.name == "table":
        return 0.5 + sum(map(lines_of, block.find_all("tr")))
    if block.name in LISTS:
        return 0.3 + sum(map(lines_of, block.find_all("li", recursive=False)))
    if block.math and block.math.get("display") == "block":
        return 3.0
    return 0.4 + ceil(len(block.get_text()) / LETTERS)


def _columns(cells: list[Tag]):
    """Each cell of a row with its share of the width: a column is wide where its words are many."""
    table = cells[0].find_parent("table")
    longest = [
        max(len(row.find_all(("th", "td"))[n].get_text()) for row in table.find_all("tr"))
        for n in range(len(cells))
    ]
    weights = [max(8, length) ** 0.75 for length in longest]
    return [(cell, weight / sum(weights)) for cell, weight in zip(cells, weights, strict=True)]


