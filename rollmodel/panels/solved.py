"""The figure beside a worked solution: one still picture, drawn from the very numbers of the question."""

from __future__ import annotations

from base64 import b64encode

from rollmodel.figures.look import Look
from rollmodel.panels import still
from rollmodel.panels.canvas import Canvas
from rollmodel.panels.solved_scenes import SCENES


class Picture:
    """One picture with its words, as a notebook shows and stores it.

    Parameters
    ----------
    title : str
    png : bytes
    words : str
        The text alternative: the conclusion and the key numbers.
    """

    def __init__(self, title: str, png: bytes, words: str):
        self.title, self.png, self.words = title, png, words

    def __repr__(self):
        return f"{self.title}\n{self.words}"

    def _repr_mimebundle_(self, **_):
        png = b64encode(self.png).decode("ascii")
        return {"text/html": still.figure(self.png, self.words), "text/plain": repr(self), "image/png": png}


def picture(work, question_id: str) -> Picture:
    """The figure of a question with this learner's numbers.

    Parameters
    ----------
    work : Work
        From ``start``.
    question_id : str
        A key of ``SCENES``.
    """
    posed = work.posed(question_id)
    figure, scene = SCENES[question_id](posed.numbers)
    look = Look()
    canvas = Canvas(getattr(figure, "size", lambda _: look.size)(look))
    canvas.hold(figure.draw(canvas.figure, scene, look, posed.family))
    return Picture(posed.question.aim, canvas.small_png(), figure.describe(scene, posed.family))
