"""What a thing is called in plain words, from the name that its part has in the model."""

from __future__ import annotations

import re

from model3d.wording import Catalogue

NAMES = (
    ("floor", r"Floor"),
    ("wall", r"Wall (?P<id>.+)"),
    ("piece", r"Piece (?P<mark>.+)"),
    ("dry-piece", r"Dry piece (?P<mark>.+)"),
    ("bracket", r"Bracket (?P<number>\d+), (?P<mark>.+)"),
    ("packers", r"Packers, .*, (?P<mark>[^,]+)"),
    ("cradle", r"Valve cradle"),
    ("valve-end", r"Valve end"),
    ("return-end", r"Return end"),
    ("turn-back-end", r"Turn-back end"),
    ("o-ring", r"O-ring"),
    ("clip", r"Joint clip, .*, (?P<mark>\S+) \S+"),
    ("elbow", r"Elbow, .*, (?P<joint>[^,]+)"),
    ("spigot", r"Link spigot, .*, (?P<joint>[^,]+)"),
    ("hose", r"Link hose, .*, (?P<joint>[^,]+)"),
    ("coupler", r"Coupler, .*, (?P<joint>[^,]+)"),
    ("bridge", r"Bridge, (?P<joint>[^,]+)"),
    ("trim", r"Trim, .*, (?P<joint>[^,]+)"),
    ("end-cap", r"End cap, (?P<mark>[^,]+)"),
)


def called(name: str, words: Catalogue) -> str:
    """A part's name in the words of a catalogue; a name of the plan's own, as an obstacle has, as it stands."""
    for key, pattern in NAMES:
        found = re.fullmatch(pattern, name)
        if found is not None:
            return words.say(f"thing.{key}", **found.groupdict())
    return name
