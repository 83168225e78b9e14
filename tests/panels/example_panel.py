"""The example panel of the panels' own documentation, run as it is printed there."""

import textwrap

import rollmodel.panels


def source() -> str:
    """The indented block after "A complete one"."""
    whole = rollmodel.panels.__doc__.split("A complete one.")[1].split("::", 1)[1]
    return textwrap.dedent(whole.split("\nRules that keep")[0])


def example_panel_class():
    """The class that the documentation defines."""
    names = {}
    exec(source(), names)  # our own docstring
    return names["RollStiffnessPanel"]
