"""A layout's pieces into stock bars."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from model3d.families.family import Family
from model3d.figures import Figure, plain
from model3d.findings import Finding
from model3d.layout import Layout, Piece
from model3d.nesting.solve import Solution, least_stock
from model3d.nesting.stock import FITS_MM, Saw, Stock
from model3d.nesting.values import Cut, CutBar, Nesting, SectionNesting
from model3d.rooms import Cutting


def nest(layout: Layout, family: Family, cutting: Cutting | None = None, *, seconds: float = 20.0) -> Nesting:
    """The bars to take for a layout's pieces: off-cuts in hand first, then the least length of new bars.

    Pieces that are up or cut already are left out. ``cutting`` is the plan's saw and stock, the usual one
    when left out; ``seconds`` bounds each search. A piece that no bar holds is a finding, and is left out.
    """
    cut = cutting or Cutting()
    saw = Saw(kerf_mm=cut.kerf_mm, end_trim_mm=cut.end_trim_mm)
    longest = saw.usable_mm(max(family.stock_lengths_mm))
    sections, findings = [], []
    for heated in (True, False):
        pieces = [p for p in layout.pieces if p.heated == heated and _is_to_cut(p)]
        stocks = _stocks(family, cut, heated)
        held = [
            p for p in pieces if any(p.cut_length_mm <= saw.usable_mm(s.length_mm) + FITS_MM for s in stocks)
        ]
        findings += [_past_stock(p, longest) for p in pieces if p not in held]
        if held:
            solution = least_stock([p.cut_length_mm for p in held], stocks, saw, seconds=seconds)
            sections.append(_section(held, heated, solution, saw, cut))
    return Nesting(sections=tuple(sections), findings=tuple(findings))


def _is_to_cut(piece: Piece) -> bool:
    """Not a piece that is up or was cut already, nor one that has no length."""
    return piece.cut_length_mm > 0.0 and not piece.fitted and piece.planned_mm is None


def _stocks(family: Family, cutting: Cutting, heated: bool) -> tuple[Stock, ...]:
    counted: dict[float, int] = {}
    for off_cut in cutting.off_cuts:
        if off_cut.dry != heated:
            counted[off_cut.length_mm] = counted.get(off_cut.length_mm, 0) + off_cut.count
    in_hand = tuple(Stock(length_mm=length, count=count) for length, count in sorted(counted.items()))
    return in_hand + tuple(Stock(length_mm=x) for x in sorted(set(family.stock_lengths_mm)))


def _section(
    pieces: Sequence[Piece], heated: bool, solution: Solution, saw: Saw, cutting: Cutting
) -> SectionNesting:
    bars = _marked(pieces, solution, saw)
    used, new = sum(b.length_mm for b in bars), [b for b in bars if not b.off_cut]
    kept = tuple(sorted((b.left_mm for b in bars if b.left_mm >= cutting.worth_keeping_mm), reverse=True))
    total = sum(p.cut_length_mm for p in pieces)
    sizes: dict[float, int] = {}
    for bar in new:
        sizes[bar.length_mm] = sizes.get(bar.length_mm, 0) + 1
    bought = " + ".join(f"{count} x {length:g}" for length, count in sorted(sizes.items())) or "0"
    kept_text = f" - {sum(kept):.2f}" if kept else ""
    return SectionNesting(
        heated=heated,
        bars=bars,
        bought=_mm(
            "bars to buy",
            bought,
            solution.cost_mm,
            f"whole stock bars; {solution.linear_mm:.1f} by the linear programme",
        ),
        bound=_mm(
            "least that any nesting buys",
            f"{solution.bound_mm:g}",
            solution.bound_mm,
            "proven least"
            if solution.proven
            else "no nesting buys less; whether one buys this little is not known",
        ),
        proven=solution.proven,
        cut=_mm("length cut", " + ".join(plain(p.cut_length_mm) for p in pieces), total, f"{len(pieces)} cut lengths"),
        waste=Figure(
            name="waste",
            formula=f"(1 - {total:.2f} / ({used:.2f}{kept_text})) x 100",
            value=100.0 * (1.0 - total / (used - sum(kept))),
            unit="%",
            rule="stock used, less what is kept of it, that is not in pieces",
        ),
        kept_mm=kept,
        unused_mm=_unused(bars, cutting, heated),
    )


def _unused(bars: Sequence[CutBar], cutting: Cutting, heated: bool) -> tuple[float, ...]:
    """The off-cuts of a section that stay as they are, longest first."""
    in_hand = Counter(x for o in cutting.off_cuts if o.dry != heated for x in [o.length_mm] * o.count)
    in_hand.subtract(b.length_mm for b in bars if b.off_cut)
    return tuple(sorted(in_hand.elements(), reverse=True))


def _marked(pieces: Sequence[Piece], solution: Solution, saw: Saw) -> tuple[CutBar, ...]:
    """Bars with their pieces' marks: the longest cut first, pieces of one length in the order of the
    layout.
    """
    waiting: dict[float, list[Piece]] = {}
    for piece in pieces:
        waiting.setdefault(round(piece.cut_length_mm, 3), []).append(piece)
    found = []
    for stock, lengths in solution.bars:
        here, cuts = saw.end_trim_mm, []
        for length in sorted(lengths, reverse=True):
            piece = waiting[round(length, 3)].pop(0)
            cuts.append(Cut(mark=piece.mark, length_mm=piece.cut_length_mm, from_mm=here))
            here += saw.takes_mm(piece.cut_length_mm)
        left = saw.left_mm([c.length_mm for c in cuts], stock.length_mm)
        found.append(
            CutBar(length_mm=stock.length_mm, off_cut=stock.is_off_cut, cuts=tuple(cuts), left_mm=left)
        )
    return tuple(sorted(found, key=lambda b: (not b.off_cut, -b.length_mm, -b.cuts[0].length_mm)))


def _past_stock(piece: Piece, longest_mm: float) -> Finding:
    return Finding(
        code="piece-past-stock",
        severity="error",
        where=f"piece {piece.mark}, wall {piece.wall.id}",
        message=f"cut length {piece.cut_length_mm:.1f} mm: no bar gives more than {longest_mm:g} mm",
        remedy="Divide it with an in-line joint.",
        parts=(piece.mark,),
        measured=piece.cut_length_mm,
        limit=longest_mm,
        place_mm=(*piece.wall.point_mm((piece.near_mm + piece.far_mm) / 2.0), 0.0),
    )


def _mm(name: str, formula: str, value: float, rule: str) -> Figure:
    return Figure(name=name, formula=formula, value=value, unit="mm", rule=rule)
