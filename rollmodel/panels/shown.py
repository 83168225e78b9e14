"""What everything on the page has in common: a root widget, names, a stored stand-in, an end."""

from __future__ import annotations

import ipywidgets as widgets
from IPython.display import display

from rollmodel.panels import session, still
from rollmodel.panels.access import Access
from rollmodel.panels.turns import MadeInTurn, in_turn


class Shown(metaclass=MadeInTurn):
    """A widget that belongs to a lesson and follows its switches.

    Parameters
    ----------
    lesson : Lesson
    key : str
        Unique in the lesson: a second one under the same key replaces the first.
    title : str
        Its name for assistive technology.
    """

    def __init__(self, lesson, key: str, title: str):
        self.lesson, self.title = lesson, title
        self.key = (lesson.name, key)
        self.access = Access()
        self.widget = widgets.VBox([self.access])
        self.widget.add_class("rm-root")
        session.replace_live(self.key, self)
        lesson.add(self)

    @property
    def family(self) -> str:
        return self.lesson.family

    @property
    def kept(self) -> dict:
        """What is remembered for this key between runs of the cell."""
        return session.remembered(*self.key)

    def fill(self, *children) -> None:
        """Lay these widgets one below the other."""
        self.widget.children = [self.access, *children]
        self.dress()

    def dress(self) -> None:
        """Follow the projector switch."""
        (self.widget.add_class if self.lesson.look.projector else self.widget.remove_class)("rm-projector")

    def set_names(self, names: dict) -> None:
        """Set attributes for assistive technology, by CSS selector; the root is named already."""
        self.access.names = {"": {"role": "group", "aria-label": self.title}} | names

    def joined(self) -> None:
        """Something was added to the lesson."""

    def restyle(self) -> None:
        """Follow a change of units, look or car."""
        self.dress()

    def stored(self) -> dict:
        """The mime bundle that stands in for the widget where nothing runs."""
        raise NotImplementedError

    def close(self) -> None:
        """Take the widgets away and leave the lesson."""
        self.lesson.drop(self)
        close_tree(self.widget)

    def _repr_mimebundle_(self, **_):
        return self.stored() | self.widget._repr_mimebundle_()

    @in_turn
    def _ipython_display_(self):
        """Two outputs: the live one, and the stored stand-in that it hides while it runs."""
        display(still.live(self.widget._repr_mimebundle_(), self.title), raw=True)
        display(self.stored(), raw=True)


def button(words: str, action) -> widgets.Button:
    """A button that calls an action, in turn."""
    made = widgets.Button(description=words)
    made.on_click(in_turn(action))
    return made


def row(*children, css: str = "rm-wrap") -> widgets.Box:
    """Widgets side by side."""
    box = widgets.Box(list(children))
    box.add_class(css)
    return box


def text(words: str = "", css: str | None = None) -> widgets.HTML:
    """A piece of HTML."""
    made = widgets.HTML(words)
    if css:
        made.add_class(css)
    return made


def close_tree(widget) -> None:
    """Close a widget with everything in it, its layouts and styles too."""
    for child in getattr(widget, "children", ()):
        close_tree(child)
    for part in (getattr(widget, "layout", None), getattr(widget, "style", None), widget):
        if part is not None:
            part.close()


def one_line(fault: Exception) -> str:
    """A fault in plain words, without a traceback."""
    faults = getattr(fault, "faults", None) or [str(fault) or type(fault).__name__]
    return "This cannot be worked out: " + "; ".join(" ".join(str(one).split()) for one in faults)
