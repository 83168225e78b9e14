"""What every panel must do; call :func:`check_panel` once for each panel there is."""

import re
from contextlib import contextmanager
from html import unescape

from ipywidgets import HTML
from matplotlib.text import Text

from rollmodel.panels.controls import Choice, Hole, Slider, Switch
from rollmodel.panels.session import forget_all
from rollmodel.units import FAMILIES

SHORTEST_WORDS = 40  # characters of a text alternative that can hold a conclusion and a number


def check_panel(panel, quiet=(), moves_limits=False):
    """Move every control of a panel to its ends and back, in both families, and look at what it shows.

    Parameters
    ----------
    panel : Panel
        Fresh, at its start values.
    quiet : tuple of str
        Names of controls that may leave the picture as it is when all others are at their start.
    moves_limits : bool
        Whether its axes follow the data, so that the background is painted more than once.
    """
    figure, start = panel.canvas.figure, vars(panel.values)
    assert panel.fault is None, panel.fault
    assert start == vars(panel.start_values()), "a fresh panel stands at its start values"
    for family in FAMILIES:
        panel.lesson.change(family=family)
        assert panel.canvas.figure is figure
        for row in list(panel.rows.values()):
            check_control(panel, row, must_show=row.control.name not in quiet, moves_limits=moves_limits)
        panel.reset()
        assert vars(panel.values) == start, "reset gives the start values back exactly"
    panel.lesson.change(family=FAMILIES[0], projector=True)
    check_shown(panel)
    panel.lesson.change(projector=False)
    assert panel.canvas.figure is figure and vars(panel.values) == start
    check_names(panel)
    check_stored(panel)
    check_nothing_given_away(panel)
    check_prediction(panel)
    check_memory(panel)


def check_control(panel, row, must_show, moves_limits):
    """One control at its ends and its start: picture and words follow, nothing is plotted again."""
    panel.reset()
    artists, paints = panel._artists, panel.canvas.full_paints
    seen = set()
    for value in ends(row.control):
        press(row, value)
        assert panel.fault is None, (row.control.name, value, panel.fault)
        check_shown(panel)
        seen.add((picture(panel), panel.caption.value))
    assert panel._artists is artists, "artists are updated, not made again"
    if not moves_limits:
        assert panel.canvas.full_paints == paints, "the background stays while a control moves"
    if must_show and len(set(ends(row.control))) > 1:
        assert len({shot for shot, _ in seen}) > 1, f"{row.control.name} changes nothing in the picture"
        assert len({words for _, words in seen}) > 1, f"{row.control.name} changes nothing in the words"


def ends(control):
    """Least, first and greatest value of a control."""
    if isinstance(control, Slider):
        return control.low, control.start, control.high
    if isinstance(control, Hole):
        return 1, control.start, len(control.places)
    return control.options if isinstance(control, Choice) else (False, True)


def press(row, value):
    """Move the widget itself, as a learner's key does; a slider goes to its own end of the scale."""
    control = row.control
    if isinstance(control, Slider):
        low, high = control.bounds(row.family)
        row.slider.value = (
            low
            if value == control.low
            else high
            if value == control.high
            else control.snapped(value, row.family)
        )
    elif isinstance(control, Hole):
        row.slider.value = value
    elif isinstance(control, Choice):
        row.list.value = value
    else:
        assert isinstance(control, Switch)
        row.box.value = value


def picture(panel) -> bytes:
    """What the image widget shows."""
    return bytes(panel.image.value)


def check_shown(panel):
    """The picture on screen is the present figure, and the words are worth reading."""
    assert picture(panel) == panel.canvas.png()
    assert picture(panel).startswith(b"\x89PNG")
    words = panel.access.names["img.widget-image"]["alt"]
    assert len(words) >= SHORTEST_WORDS, words
    assert any(letter.isdigit() for letter in words), f"no number in: {words}"
    assert "nan" not in words.lower().split(), words


def check_names(panel):
    """Every control has a name of its own, with no unit in it."""
    names = [row.control.text for row in panel.rows.values()]
    assert len(set(names)) == len(names) and all(names)
    for row in panel.rows.values():
        assert any(selector.startswith(f".{row.css} ") for selector in panel.access.names)


def check_stored(panel):
    """The notebook keeps the default picture, a strip and the same in words; twice the same."""
    bundle = panel.stored()
    assert bundle == panel.stored(), "what is stored does not depend on the run"
    html = bundle["text/html"]
    assert html.count("<figure") == 4 and html.count('alt="') == 4
    # the letters of a picture may spell anything
    beside_pictures = re.sub(r'src="data:image/png;base64,[^"]*"', "", html)
    assert "http" not in beside_pictures.replace("http://www.w3.org", "")
    assert all(part.startswith("data:image/png;base64,") for part in html.split('src="')[1:])
    states = {tuple(vars(panel.start_values(**changes)).items()) for changes in (panel.low, {}, panel.high)}
    assert len(states) > 1, "low, start and high are one and the same"
    pictures = {part.split('"')[0] for part in html.split('src="')[2:]}
    assert len(pictures) == len(states), "low, start and high look different"
    words = {part.split('"')[0].partition(": ")[2] for part in html.split('alt="')[2:]}
    assert len(words) == len(states), "low, start and high say different things"


def check_nothing_given_away(panel):
    """While a prediction is wanted no words of the panel, drawn or written, hold the number it asks for."""
    panel.reset()
    if panel.prediction() is None or not panel.card.pending:
        return
    before, after = (panel.card._shown(value) for value in panel.card._ends())
    answer = re.compile(rf"(?<![\d.]){re.escape(after)}")
    if before != after:
        assert [words for words in all_words(panel) if answer.search(words)] == []


def all_words(panel):
    """Everything written in a panel: texts, text alternative, and the texts in its picture."""
    drawn = [text.get_text() for text in panel.canvas.figure.findobj(Text) if text.get_visible()]
    return [*drawn, panel.access.names["img.widget-image"]["alt"], *written(panel.widget)]


def written(widget):
    """The text of every widget inside a widget that is not hidden."""
    if getattr(widget.layout, "display", None) == "none":
        return []
    own = [unescape(widget.value)] if isinstance(widget, HTML) else []
    return own + [words for child in getattr(widget, "children", ()) for words in written(child)]


def check_prediction(panel):
    """A committed prediction is drawn, and taken away again."""
    if panel.prediction() is None:
        return
    panel.reset()
    before, card = picture(panel), panel.card
    card.direction.value, card.size.value = "It rises", "1"
    card.commit()
    assert card.guess_value() is not None, card.message.value
    assert panel.fault is None, panel.fault
    assert picture(panel) != before, "the prediction is drawn on the same axes"
    panel.set(**panel.prediction().after)
    assert "The model says" in card.outcome.value
    panel.reset()
    card.again()
    assert picture(panel) == before


def check_memory(panel):
    """Run again, the cell stands where the learner left it; in a new kernel at the start."""
    row = next(iter(panel.rows.values()))
    press(row, ends(row.control)[-1])
    again = type(panel)(panel.lesson)
    assert vars(again.values) == vars(panel.values)
    assert panel not in panel.lesson._shown, "the older panel is closed"
    with fresh():
        assert vars(type(panel)(panel.lesson).values) == vars(again.start_values())


@contextmanager
def fresh():
    """As in a kernel just started."""
    forget_all()
    yield
    forget_all()
