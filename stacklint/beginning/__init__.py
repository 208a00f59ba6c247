"""A first plan from a few answers: sensible for the wood and the thickness, and clean under a check."""

from stacklint.beginning.answers import Answers, Question, Refused, refused
from stacklint.beginning.first_plan import Begun, begin

__all__ = ["Answers", "Begun", "Question", "Refused", "begin", "refused"]
