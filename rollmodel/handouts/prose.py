"""Markdown of a lesson to HTML that stands alone: formulas as MathML, links as the words they stand on."""

from __future__ import annotations

import re

from bs4 import BeautifulSoup, Tag
from latex2mathml.converter import convert
from nbconvert.filters.markdown_mistune import IPythonRenderer, MarkdownWithMath

CAUTION = "qualified inspection"  # stands in every caution before somebody picks up a spanner

_PRIMED = re.compile(r"<msup>(<mi>\w</mi>)<mi>(&#x0*2032;|\u2032)</mi></msup>")
HEADINGS = ("h1", "h2", "h3", "h4")


class Renderer(IPythonRenderer):
    """Formulas are part of the page; elsewhere a script from outside would set them."""

    def block_math(self, body: str) -> str:
        """A formula on a line of its own."""
        return _formula(body, "block")

    def inline_math(self, body: str) -> str:
        """A formula in a sentence."""
        return _formula(body, "inline")


def _formula(body: str, display: str) -> str:
    """A formula as MathML; a prime sign stands high by itself and is not raised once more."""
    return _PRIMED.sub(r"<mrow>\1<mi>\2</mi></mrow>", convert(body.strip(), display=display))


def with_formulas(markdown: str) -> str:
    """Markdown as HTML, its formulas set in the page; links stay.

    Examples
    --------
    >>> with_formulas("[lesson 5](05-x.ipynb)").strip()
    '<p><a href="05-x.ipynb">lesson 5</a></p>'
    """
    return MarkdownWithMath(renderer=Renderer(escape=False, exclude_anchor_links=True)).render(markdown)


def to_html(markdown: str) -> str:
    """Markdown as HTML; each caution is marked as one.

    Examples
    --------
    >>> to_html("See [lesson 5](05-where-the-load-goes.ipynb).")
    '<p>See lesson 5.</p>'
    """
    return "\n".join(map(str, blocks(markdown)))


def blocks(markdown: str) -> list[Tag]:
    """The same as a list of what stands one below the other: headings, paragraphs, lists, tables."""
    page = BeautifulSoup(with_formulas(markdown), "html.parser")
    for link in page.find_all("a"):  # the lesson that it leads to does not come with the page
        link.unwrap()
    for formula in page.find_all("math"):
        del formula["xmlns"]  # HTML needs none
    found = [one for one in page.children if isinstance(one, Tag)]
    for one in found:
        words = " ".join(one.get_text().split())
        if CAUTION in words:
            one["class"] = "caution"
        elif one.name == "p" and (words.endswith(":") or is_title(one)):
            one["class"] = "lead"
    return found


def is_title(block: Tag) -> bool:
    """Whether a block is a heading, or a paragraph of bold words alone."""
    alone = [one for one in block.children if str(one).strip()]
    bold = block.name == "p" and len(alone) == 1 and getattr(alone[0], "name", None) == "strong"
    return bold or block.name in HEADINGS
