"""In which order the pieces go up, what must come off to get one out, and what would free one that is trapped."""
