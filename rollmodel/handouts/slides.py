"""A lesson's pieces as slides: one idea on each; what explains a picture at length goes into its notes."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from html import escape

from bs4 import BeautifulSoup, Tag

from rollmodel.handouts.pieces import Item, Pictures, Predict, Questions, Ran, Said, Shot, Tasks, Words
from rollmodel.handouts.prose import HEADINGS, blocks, is_title, to_html
from rollmodel.handouts.room import FULL, LISTS, ROOM, lines_of, lines_of_item, lines_of_prediction, parts

MOST = 40  # slides for a lesson of 90 minutes, about two minutes for each
ONE_LINE, FEW_LINES = 1.5, 2.5
SHORT_WORDS = 7  # lines: "a few words"
TALL, LOW = 0.6, 0.49  # height over width of a picture
SHORT = 280  # letters that fit below a picture without taking from it
BLOCKS = (*LISTS, *HEADINGS, "p", "table")
NEXT = "Next"  # the lesson that follows
TASKS = "Tasks"
TAKE_AWAY, EXERCISES = "Take away", "Exercises"


@dataclass(frozen=True)
class Slide:
    """One slide: words as HTML, before a picture, a prediction or questions where it has one.

    ``kind`` is the name of its part in the template.
    """

    kind: str
    title: str
    html: str = ""
    shot: Shot | None = None
    predict: Predict | None = None
    items: tuple[Item, ...] = ()
    note: str = ""
    first: int = 0  # number of the first question, where they are numbered
    words: str = ""  # where those of a picture stand: "beside" or "below" it, or "apart" in the notes
    notes: str = ""  # for the instructor, as HTML
    lines: float = 0.0  # that its words take


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
        lines, html = self.lines, self.take_html()
        return [Slide("words", self.title, html, lines=lines)] if html else []

    def take_html(self) -> str:
        """What has been piled up, to stand on a slide with something else."""
        html, self.blocks = "\n".join(map(str, self.blocks)), []
        return html


def slides(ran: Ran) -> list[Slide]:
    """Every slide of a lesson, the title first; where they would be too many, the tasks go into notes."""
    every = _every(ran, _tasks)
    return every if len(every) <= MOST else _every(ran, _Folded(ran))


def _every(ran: Ran, put_tasks) -> list[Slide]:
    found, pile = [Slide("title", ran.title)], Pile(ran.title)
    for piece in ran.pieces:
        if isinstance(piece, Words):
            _words(blocks(piece.text), pile, found)
        elif isinstance(piece, Tasks):
            found += pile.take()
            put_tasks(piece, found)
        else:
            found += _slides_of(piece, pile)
    return _closed(_said_once(found + pile.take()))


def _said_once(every: list[Slide]) -> list[Slide]:
    """Without slides that only repeat a list: a run sheet holds the cautions that the lesson begins with."""
    kept, said = [], set()
    for slide in every:
        points = {point.get_text() for point in BeautifulSoup(slide.html, "html.parser").select("ul li")}
        if points and points <= said and "table" not in slide.html:
            kept[-1] = replace(kept[-1], notes=kept[-1].notes + slide.notes)
        else:
            kept.append(slide)
        said |= points
    return kept


def _tasks(piece: Tasks, found: list[Slide]) -> None:
    """Slides of their own."""
    pile = Pile(TASKS)
    for one in blocks(piece.text):
        found += _put(one, pile)
    found += pile.take()


class _Folded:
    """Tasks as notes of the slide before them; one slide says so, where the first of them stood."""

    def __init__(self, ran: Ran):
        self.ran, self.said = ran, False

    def __call__(self, piece: Tasks, found: list[Slide]) -> None:
        notes = f"<p><strong>{TASKS} at the keyboard.</strong></p>{to_html(piece.text)}"
        found[-1] = replace(found[-1], notes=found[-1].notes + notes)
        if not self.said:
            self.said = True
            found.append(Slide("words", "At the keyboard", self._words()))

    def _words(self) -> str:
        panels = dict.fromkeys(one.panel for one in self.ran.tasks)
        return (
            "<p>To be done in the open lesson, not here: the tasks with these panels.</p><ul>"
            + "".join(f"<li>{escape(panel)}</li>" for panel in panels)
            + f"</ul><p>Open it with <code>rollmodel open {self.ran.number}</code>. The words of the tasks "
            "are in the notes of the slide before each: press N, or Notes.</p>"
        )


def _closed(every: list[Slide]) -> list[Slide]:
    """What there is to take away, and below it the few words on exercises that stand before it."""
    kept = every[:1]
    for slide in every[1:]:
        last = kept[-1]
        together = last.lines + slide.lines
        if (last.title, slide.title) == (EXERCISES, TAKE_AWAY) and together <= FULL:
            title, html = f"{TAKE_AWAY}, and exercises", f"{slide.html}\n{last.html}"
            kept[-1] = replace(slide, title=title, html=html, lines=together)
        else:
            kept.append(slide)
    return kept


def _slides_of(piece, pile: Pile) -> list[Slide]:
    """The slides of a piece that is more than prose, and of the words that lead to it."""
    if isinstance(piece, Said):
        return _said(piece, pile)
    if isinstance(piece, Pictures):
        return _pictures(piece, pile)
    if isinstance(piece, Questions):
        return _questions(piece, pile)
    first = Slide("question", "Class question", items=(piece.first,))
    return [
        *_after(pile, first, lines_of_item(piece.first)),
        Slide("question", "The twin question", items=(piece.twin,), note="After the talk. Show hands again."),
    ]


def _after(pile: Pile, slide: Slide, lines: float) -> list[Slide]:
    """A slide with the words that wait before it, on the same one where they fit."""
    if pile.lines + lines > ROOM:
        return [*pile.take(), slide]
    return [replace(slide, html=pile.take_html())]


def _pictures(piece: Pictures, pile: Pile) -> list[Slide]:
    """The prediction stands before the pictures that answer it."""
    if piece.predict:
        asked = Slide("predict", pile.title, predict=piece.predict)
        made = _after(pile, asked, lines_of_prediction(piece.predict))
    else:
        made = pile.take()
    return made + [_picture(piece.title, shot) for shot in piece.shots]


def _picture(title: str, shot: Shot) -> Slide:
    place = place_of_words(shot)
    notes = f"<p>{escape(shot.words)}</p>" if place == "apart" else ""
    return Slide("picture", title, shot=shot, words=place, notes=notes)


def place_of_words(shot: Shot) -> str:
    """Where words leave their picture most room: beside a tall one, below a low one, else in the notes."""
    width, height = shot.size
    if height > TALL * width and len(shot.words) <= SHORT:
        return "beside"
    return "below" if height <= LOW * width and len(shot.words) <= SHORT else "apart"


def _questions(piece: Questions, pile: Pile) -> list[Slide]:
    """As many questions on a slide as there is room for."""
    shares, room = [[]], ROOM - pile.lines
    for item in piece.items:
        lines = lines_of_item(item)
        if shares[-1] and lines > room:
            shares.append([])
            room = ROOM
        shares[-1].append(item)
        room -= lines
    firsts = [1 + sum(map(len, shares[:n])) if len(piece.items) > 1 else 0 for n in range(len(shares))]
    made = [
        Slide("question", pile.title, items=tuple(share), first=first)
        for share, first in zip(shares, firsts, strict=True)
    ]
    return [*_after(pile, made[0], sum(map(lines_of_item, shares[0]))), *made[1:]]


def _said(piece: Said, pile: Pile) -> list[Slide]:
    """A panel's further words, from its own HTML; loose words lead what follows them."""
    heading, found = pile.title, []
    if not pile.blocks:
        pile.title = piece.title
    for one in _flat(BeautifulSoup(piece.html, "html.parser")):
        found += _put(one if one.name in BLOCKS else _wrapped(one), pile)
    found += pile.take()
    pile.title = heading
    return found


def _flat(page: Tag):
    """What stands one below the other, inside divisions too; blocks keep their distance without breaks."""
    for one in page.find_all(recursive=False):
        if one.name in ("div", "section"):
            yield from _flat(one)
        elif one.name != "br":
            yield one


def _wrapped(one: Tag) -> Tag:
    return BeautifulSoup(f'<p class="lead">{one}</p>', "html.parser").p


def _words(waiting: list[Tag], pile: Pile, found: list[Slide]) -> None:
    """Fill slides with blocks. A heading begins another; bold words alone in a line do so for this piece."""
    heading = pile.title
    for one in waiting:
        title = one.get_text().strip().rstrip(".") if is_title(one) else None
        if "caution" in one.get("class", ""):
            found += _alone(one, "Cautions", pile)
        elif one.get_text().startswith(NEXT):
            found += pile.take()
            found[-1:] = _with_last_word(found[-1], one)
        elif title is None:
            found += _put(one, pile)
        elif one.name == "p" and title != TAKE_AWAY and 0 < pile.lines <= SHORT_WORDS:
            one["class"] = "lead"
            pile.blocks.append(one)
        elif one.name != "h1":  # the lesson's own title has its slide
            found += pile.take()
            pile.title = title
            heading = title if one.name in HEADINGS else heading
    if pile.title != heading:
        found += pile.take()
        pile.title = heading


def _alone(block: Tag, title: str, pile: Pile) -> list[Slide]:
    """A slide of its own, or more where it is long."""
    found = [Slide("words", title, str(one), lines=lines_of(one)) for one in parts(block)]
    return [*pile.take(), *found]


def _with_last_word(slide: Slide, block: Tag) -> list[Slide]:
    """A line that closes the lesson, on its last slide of words where it fits."""
    together = slide.lines + lines_of(block)
    if slide.kind != "words" or together > FULL:
        return [slide, Slide("words", NEXT, str(block), lines=lines_of(block))]
    return [replace(slide, html=f"{slide.html}\n{block}", lines=together)]


def _put(block: Tag, pile: Pile) -> list[Slide]:
    """Add a block, in parts where it is too long, and give the slides that became full."""
    made = []
    for one in parts(block):
        if not _fits(one, pile):
            lead = _taken_back(pile, one)
            made += pile.take()
            pile.blocks += lead
        pile.blocks.append(one)
    return made


def _fits(block: Tag, pile: Pile) -> bool:
    """A last line, or a long block below a few words, may go beyond the usual room."""
    together = pile.lines + lines_of(block)
    may_fill = pile.lines <= SHORT_WORDS or lines_of(block) <= ONE_LINE
    return together <= (FULL if may_fill else ROOM)


def _taken_back(pile: Pile, block: Tag) -> list[Tag]:
    """The last of a pile that goes with what follows: a title, words with a colon, a line above a table."""
    above = sum(map(lines_of, pile.blocks[-1:]))
    over_table = block.name == "table" and 0 < above <= FEW_LINES and above + lines_of(block) <= FULL
    lead = [pile.blocks.pop()] if over_table else []
    while pile.blocks and "lead" in pile.blocks[-1].get("class", ""):
        lead.insert(0, pile.blocks.pop())
    return lead
