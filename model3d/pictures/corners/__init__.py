"""Corner sheets: one a corner, from the room, from above, and cut through a waterway with what warmth does there."""
