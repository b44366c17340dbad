"""Moving pictures: a step, a corner or the whole assembly along the moves that were checked."""
