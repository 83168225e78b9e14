"""Handouts and slides as text: each page complete in itself, nothing in it is asked of the outside."""

from __future__ import annotations

from functools import cache

from jinja2 import Environment, PackageLoader, StrictUndefined

import rollmodel
from rollmodel.handouts.pieces import ClassVote, Pictures, Questions, Ran, Said, Tasks, Words
from rollmodel.handouts.prose import to_html
from rollmodel.handouts.slides import slides

KINDS = {
    Words: "words",
    Pictures: "pictures",
    Questions: "questions",
    ClassVote: "vote",
    Said: "said",
    Tasks: "tasks",
}


def handout(ran: Ran) -> str:
    """A lesson to read on paper: no controls, no answer to a question, no twin of the class question."""
    return _pages().get_template("handout.html").render(ran=ran)


def deck(ran: Ran) -> str:
    """A lesson for the projector: one idea a slide; without scripts one long page."""
    return _pages().get_template("slides.html").render(ran=ran, slides=slides(ran))


@cache
def _pages() -> Environment:
    pages = Environment(
        loader=PackageLoader("rollmodel.handouts"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    pages.filters |= {"prose": to_html, "kind": _kind}
    pages.globals |= {"version": rollmodel.__version__}
    return pages


def _kind(piece) -> str:
    return KINDS[type(piece)]
