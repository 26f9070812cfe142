"""Named questions to the engine, and their answers: the only room with a cache.

`Answers` turns a question ("lesion-width") and its parameters, as an author writes them, into a
`Quantity` with its conditions in words, or into a `SettingError` that names every fault. Pages,
figures and quiz keys ask here, so one lesion is computed once however often it is shown.
"""

from threeview.computed.answers import Answer, Answers
from threeview.computed.cache import Cache
from threeview.computed.figure_data import FIGURE_DATA
from threeview.computed.questions import QUESTIONS

__all__ = ["FIGURE_DATA", "QUESTIONS", "Answer", "Answers", "Cache"]
