"""What is wrong with this installation, in plain words, each with its mend.

Only the standard library is imported here: the doctor must speak when anything else is missing.
What needs more is tried in a program of its own, so that nothing it does can silence the doctor.
"""

from rollmodel.doctor.examination import examine
from rollmodel.doctor.finding import GOOD, UNKNOWN, WRONG, Finding

__all__ = ["GOOD", "UNKNOWN", "WRONG", "Finding", "examine"]
