"""Questions for learners: a bank, numbers from a code word, wrong roads, checking, kept answers.

No widgets and no drawing here. A notebook needs only :func:`rollmodel.questions.work.start`; the
panels of a lesson use :func:`recall_for`, :func:`class_question`, :func:`check` and :func:`feedback`.
"""

from rollmodel.questions.bank import class_question, question, questions_for, recall_for
from rollmodel.questions.checking import Verdict, check, right_answer
from rollmodel.questions.feedback import Feedback, feedback
from rollmodel.questions.posed import Posed, pose
from rollmodel.questions.work import start

__all__ = ["Feedback", "Posed", "Verdict", "check", "class_question", "feedback", "pose", "question",
           "questions_for", "recall_for", "right_answer", "start"]
