"""Why a figure is what it is: sums that a person can do again with a pencil."""

from model3d.why.explain import UnknownMark, explain
from model3d.why.said import explanation_data, explanation_text
from model3d.why.values import Explanation, Line, Section

__all__ = [
    "Explanation",
    "Line",
    "Section",
    "UnknownMark",
    "explain",
    "explanation_data",
    "explanation_text",
]
