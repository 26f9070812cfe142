"""Quiz items: as authors write them (`item`) and as learners' responses are scored (`scoring`)."""

from threeview.quiz.scoring import POSSIBLE, NumericKey, Response, ScorableItem, Score, score

__all__ = ["POSSIBLE", "NumericKey", "Response", "ScorableItem", "Score", "score"]
