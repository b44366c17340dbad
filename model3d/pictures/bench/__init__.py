"""Bench pictures: one a piece, what goes on each of its ends before it goes to the wall.

On the bench a piece is turned end for end and face down, so an end is named by where it goes, never by left or
right; the top edge and the front are marked.
"""
