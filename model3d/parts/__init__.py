"""What each part is, in numbers: one frozen spec a kind, equal specs being one shape.

A spec says everything its solid needs and nothing of where it stands. Its docstring gives datum and axes. Local axes
of the parts that belong to a wall: x along the wall, y out from the wall into the room (u), z up (v).
"""
