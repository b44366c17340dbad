"""Files for other programs: the assembly as a tree of numbers, written as STEP and STL."""
