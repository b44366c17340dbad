"""Strings of an ISO 10303-21 exchange structure, written in plain ASCII.

The kernel's writer puts names in as raw UTF-8 and breaks long ones over several lines; the second edition
of ISO 10303-21, which the header of the file claims, has ASCII only. So the kernel is given short marks in
place of names, and the marks are exchanged for well-formed strings in the finished text.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping, Sequence

_SPECIAL = re.compile(
    r"(?P<X2>'(?= *[,)])|[^ -~\U00010000-\U0010ffff]+)|(?P<X4>[\U00010000-\U0010ffff]+)|(?P<doubled>['\\])"
)
_MARK = re.compile(
    r"(?:(?P<head>(?:PRODUCT|NEXT_ASSEMBLY_USAGE_OCCURRENCE)\(\s*)'[^']*'(?P<gap>\s*,\s*))?'~(?P<number>\d+)~'"
)


def mark(index: int) -> str:
    """The stand-in for the name number ``index``."""
    return f"~{index}~"


def quoted(text: str) -> str:
    r"""``text`` as a string of ISO 10303-21:2002: quoted, ASCII only, all else as ``\X2\`` or ``\X4\``.

    An apostrophe is doubled, but for one before a comma or a closing bracket: the kernel's own reader takes
    that for the end of the string, so there it is written as ``\X2\0027\X0\`` too.
    """
    return f"'{_SPECIAL.sub(_encoded, text)}'"


def _encoded(found: re.Match[str]) -> str:
    if found.lastgroup == "doubled":
        return found[0] * 2
    digits = 4 if found.lastgroup == "X2" else 8
    return f"\\{found.lastgroup}\\" + "".join(f"{ord(char):0{digits}X}" for char in found[0]) + "\\X0\\"


def distinct_ids(entries: Mapping[int, tuple[str, str]]) -> dict[int, str]:
    """An id for each product, or each occurrence, no two alike, from its name and its place in the tree.

    The id is the name where no other has it, else the place (``run 2 / wall 1``), numbered if that too is
    taken. Programs that keep parts by id would otherwise take two assemblies of one name for the same; and
    some show the id where a name has no letter they know.
    """
    shared = Counter(name for name, _ in entries.values())
    taken = {name for name, count in shared.items() if count == 1}
    ids: dict[int, str] = {}
    for index, (name, place) in entries.items():
        if shared[name] == 1:
            ids[index] = name
            continue
        number, candidate = 1, place
        while candidate in taken:
            number += 1
            candidate = f"{place} ({number})"
        taken.add(candidate)
        ids[index] = candidate
    return ids


def with_names(text: str, names: Sequence[str], ids: Mapping[int, str]) -> str:
    """``text`` with every mark exchanged for its name, and products and occurrences given their ids.

    ``ids`` has the id of each by the number of its mark. The kernel's own ids of occurrences count on from
    the last file of the same process, which would make two files of one assembly differ. Raises KeyError
    where an id is missing.
    """

    def written(found: re.Match[str]) -> str:
        number = int(found["number"])
        identity = f"{found['head']}{quoted(ids[number])}{found['gap']}" if found["head"] else ""
        return identity + quoted(names[number])

    return _MARK.sub(written, text)
