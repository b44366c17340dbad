"""Puzzles of squares on a grid, whose things slide straight out, and small assemblies given as tables."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import permutations

from hypothesis import strategies as st

from model3d.order.apart import Assembly

Cell = tuple[int, int]
Cells = frozenset[Cell]
SLIDES: dict[str, Cell] = {"up": (0, 1), "left": (-1, 0), "right": (1, 0), "down": (0, -1)}
FURTHEST = 40  # cells: beyond every puzzle


def drawn(picture: str) -> dict[str, Cells]:
    """Things by letter from a picture of rows; a dot is free."""
    rows = [row.strip() for row in picture.strip().splitlines()]
    found: dict[str, set[Cell]] = {}
    for y, row in enumerate(reversed(rows)):
        for x, letter in enumerate(row):
            if letter != ".":
                found.setdefault(letter, set()).add((x, y))
    return {letter: frozenset(cells) for letter, cells in sorted(found.items())}


def slid_out(cells: Mapping[str, Cells], fixed: Iterable[str] = ()) -> Assembly[str]:
    """The puzzle whose things go by sliding straight out to where nothing stands; ``fixed`` ones never go."""
    stuck = frozenset(fixed)

    def blockers(thing: str, way: str, present: frozenset[str]) -> frozenset[str]:
        dx, dy = SLIDES[way]
        swept = {(x + dx * k, y + dy * k) for x, y in cells[thing] for k in range(1, FURTHEST)}
        return frozenset(o for o in present | stuck if o != thing and cells[o] & swept)

    things = tuple(t for t in cells if t not in stuck)
    return Assembly(things=things, ways=dict.fromkeys(things, tuple(SLIDES)), blockers=blockers)


@dataclass(frozen=True)
class Table:
    """An assembly as a table: for each thing and way all that ever blocks it, and what it is attached to."""

    blocks: dict[tuple[str, int], frozenset[str]]
    attached: dict[str, frozenset[str]]
    things: tuple[str, ...]

    def assembly(self, *, all_named: bool = True) -> Assembly[int]:
        """The assembly; with ``all_named`` False a blocked way names one blocker alone."""

        def blockers(thing: str, way: int, present: frozenset[str]) -> frozenset[str]:
            found = self.blocks[thing, way] & (present | {"wall"})
            return found if all_named else frozenset(sorted(found)[:1])

        ways = {t: tuple(w for (of, w) in self.blocks if of == t) for t in self.things}
        return Assembly(things=self.things, ways=ways, blockers=blockers, attached=self.attached)

    def goes(self, thing: str, present: frozenset[str]) -> bool:
        """Whether a thing can go, read off the table."""
        if any(thing in self.attached.get(o, frozenset()) for o in present if o != thing):
            return False
        return any(not b & (present | {"wall"}) for (of, _), b in self.blocks.items() if of == thing)

    def orders(self) -> list[tuple[str, ...]]:
        """Every order of putting all together, by trying all."""
        return [p for p in permutations(self.things) if self.comes_apart(tuple(reversed(p)))]

    def comes_apart(self, removals: tuple[str, ...]) -> bool:
        """Whether things can be taken away in this turn, all others staying."""
        present = frozenset(self.things)
        for thing in removals:
            if not self.goes(thing, present):
                return False
            present -= {thing}
        return True


@st.composite
def tables(draw: st.DrawFn, most: int = 5) -> Table:
    """Small assemblies with one or two ways a thing, some barred for good by a wall, some things attached to others."""
    things = tuple("abcdefg"[: draw(st.integers(1, most))])
    blocks, attached = {}, {}
    for k, thing in enumerate(things):
        others = [t for t in things if t != thing]
        pool = st.sampled_from([*others, *others, *others, "wall"])
        for way in range(draw(st.integers(1, 2))):
            blocks[thing, way] = draw(st.frozensets(pool, max_size=2))
        if k and draw(st.booleans()):
            attached[thing] = frozenset({draw(st.sampled_from(things[:k]))})
    return Table(blocks=blocks, attached=attached, things=things)
