"""A car sheet filled in field by field: what is asked, in which words, and what becomes of the answers.

Answers are text by path, ``{"mass": "1290 kg", "front.track": "1.52 m", "front.bar": "holes"}``. Nothing
here knows a widget; the form in the lessons' index is made of it.
"""

from rollmodel.sheets.form.layout import BAR_KINDS, BLANK, Line, Section, label, sections
from rollmodel.sheets.form.verdict import Verdict, judge

__all__ = ["BAR_KINDS", "BLANK", "Line", "Section", "Verdict", "judge", "label", "sections"]
