"""Choosing the change: the trade's rule, the model's word on it, and where the two part.

>>> from rollmodel.advice import trade_rule
>>> trade_rule("oversteer")
{'front': 'stiffer', 'rear': 'softer'}
"""

from rollmodel.advice.cautions import CAUTIONS, SHORT, WHEN_NOT, missing_parts
from rollmodel.advice.choosing import VERDICTS, Choice, can_bear_more, choose
from rollmodel.advice.moves import LeftOut, Move
from rollmodel.advice.numbers import (
    Effect,
    EndReading,
    Reading,
    effect_of,
    effect_of_springs,
    hole_pair,
    readings,
    working_acceleration,
)
from rollmodel.advice.reasons import SENTENCES, Reason
from rollmodel.advice.rule import DIRECTIONS, PHASES, SYMPTOMS, NextHole, free_holes, trade_rule, what_now
from rollmodel.advice.survey import Parting, Survey, practice_and_model
from rollmodel.advice.thresholds import CLASS_FIGURES, Thresholds, class_by_roll

__all__ = [
    "CAUTIONS", "CLASS_FIGURES", "DIRECTIONS", "PHASES", "SENTENCES", "SHORT", "SYMPTOMS", "VERDICTS",
    "WHEN_NOT",
    "Choice", "Effect", "EndReading", "LeftOut", "Move", "NextHole", "Parting", "Reading", "Reason", "Survey",
    "Thresholds", "can_bear_more", "choose", "class_by_roll", "effect_of", "effect_of_springs", "free_holes",
    "hole_pair", "missing_parts", "practice_and_model", "readings", "trade_rule", "what_now",
    "working_acceleration",
]
