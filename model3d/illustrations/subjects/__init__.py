"""What an illustration shows: a view of the room, a part, a step, a corner, an exploded view, a right and a wrong."""
