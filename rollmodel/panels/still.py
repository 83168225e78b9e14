"""What a notebook stores: pictures and words that say the same as the panel when nothing runs.

Everything is in the output itself, as data: addresses; nothing is asked of the outside.
"""

from base64 import b64encode
from html import escape

WIDGET_VIEW = "application/vnd.jupyter.widget-view+json"

# A saved notebook that has not been run shows "Loading widget..." or "model not found" where the live
# widget would stand, in an output without a mime type and without children: hide that line.
_STYLE = (
    "<style>.jp-OutputArea:has(.rm-still) .jp-OutputArea-output:not([data-mime-type]):not(:has(*))"
    "{display:none}@media print{.rm-still figure{break-inside:avoid}}"
    # A page to read has no cells to run; and one word of it is enough.
    "body:not(:has(.jp-NotebookPanel)) .rm-rest,.rm-still~.rm-rest{display:none}</style>"
)
_REST = '<p class="rm-rest"><em>Stored, not running. To use it, run the cells from the top.</em></p>'
_IMAGE = "max-width:100%;height:auto;border:1px solid #767676;background:#fff"


def figure(png: bytes, alt: str, caption: str = "") -> str:
    """One picture with its text alternative; the caption repeats the words for people who see."""
    data = b64encode(png).decode("ascii")
    return (
        f'<figure style="margin:0 0 8px 0"><img style="{_IMAGE}" alt="{escape(alt, quote=True)}" '
        f'src="data:image/png;base64,{data}"><figcaption>{escape(caption or alt)}</figcaption></figure>'
    )


def bundle(title: str, main, strip) -> dict:
    """A mime bundle of the default picture and a strip.

    Parameters
    ----------
    title : str
    main : tuple of (bytes, str)
        PNG and text alternative.
    strip : list of (str, bytes, str)
        Name of the state, PNG, text alternative.
    """
    cells = "".join(
        f'<div style="flex:1 1 260px;max-width:520px">{figure(png, f"{name}: {alt}")}</div>'
        for name, png, alt in strip
    )
    html = f'{figure(*main)}<div style="display:flex;flex-wrap:wrap;gap:10px">{cells}</div>'
    text = "\n".join([main[1], *(f"{name}: {alt}" for name, _, alt in strip)])
    return words(title, html, text) | {"image/png": b64encode(main[0]).decode("ascii")}


def words(title: str, html: str, text: str) -> dict:
    """A mime bundle of words under a title."""
    body = (
        f'{_STYLE}{_REST}<div class="rm-still" role="group" aria-label="{escape(title, quote=True)}">'
        f"<p><strong>{escape(title)}</strong></p>{html}</div>"
    )
    return {"text/html": body, "text/plain": f"{title}\n{text}"}


def live(view: dict, title: str) -> dict:
    """The bundle of the running widget: outside a running notebook it shows nothing."""
    return {
        WIDGET_VIEW: view[WIDGET_VIEW],
        "text/html": "<span></span>",
        "text/plain": f"{title}: run this cell to use the controls.",
    }
