"""In which order the pieces go up, what must come off to get one out, and what would free one that is trapped.

``apart`` and ``get_out`` know nothing of skirting: things, what they are attached to and rest on, and a function that
names what stands in a thing's way. ``straight_out`` is that function for any solids that go straight out; ``blocking``
answers for a plan's things, by the moves of its family.
"""

from model3d.order.apart import Assembly, take_apart
from model3d.order.data import order_data, rating_data, removed_data
from model3d.order.findings import order_findings
from model3d.order.freeing import seek_and_free
from model3d.order.get_out import get_out
from model3d.order.job import Job, job_of
from model3d.order.rating import Rating, rate, rate_usual
from model3d.order.removing import remove
from model3d.order.said import order_text, rating_text, removed_text
from model3d.order.seek import seek
from model3d.order.straight_out import straight_out
from model3d.order.values import Removed, Sought, Turn

__all__ = [
    "Assembly", "Job", "Rating", "Removed", "Sought", "Turn", "get_out", "job_of", "order_data", "order_findings",
    "order_text", "rate", "rate_usual", "rating_data", "rating_text", "remove", "removed_data", "removed_text",
    "seek", "seek_and_free", "straight_out", "take_apart",
]  # fmt: skip
