"""Drawings of a stack for a page: its side, its end, a course from above, its kiln, and how it dries."""

from stacklint.report.drawings.course_plan import course_plan
from stacklint.report.drawings.drying_picture import drying_curve
from stacklint.report.drawings.end_view import end_view
from stacklint.report.drawings.kiln_section import kiln_section
from stacklint.report.drawings.side_view import side_view

__all__ = ["course_plan", "drying_curve", "end_view", "kiln_section", "side_view"]
