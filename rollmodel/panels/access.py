"""Names, roles and live text for assistive technology, and the style sheet of all panels.

The stock slider gives its handle the role "slider" but no name, and the stock image has no text
alternative. This small widget sets the missing attributes in the page and keeps them set.
"""

from pathlib import Path

import anywidget
import traitlets

HERE = Path(__file__).parent


class Access(anywidget.AnyWidget):
    """Sets attributes on elements of the panel it stands in.

    Attributes
    ----------
    names : dict
        CSS selector inside the panel ("" for the panel itself) to a dict of attributes.
    """

    _esm = HERE / "access.js"
    _css = HERE / "panels.css"
    names = traitlets.Dict().tag(sync=True)

    def focus(self, *selectors: str) -> None:
        """Put the focus on the first element of the panel that one of these CSS selectors finds."""
        self.send({"focus": ", ".join(selectors)})
