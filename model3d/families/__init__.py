"""Profile families: the data of a system as written, and the sums that refuse one whose numbers cannot work."""
