"""The insertion of every long leg in its four states, against its window."""

from __future__ import annotations

from model3d.families.elbow_corner import ElbowCorner, elbow_corner
from model3d.families.family import Family
from model3d.figures import Figure
from model3d.layout import Joint
from model3d.thermal.values import Growth, LongLeg


def long_leg(family: Family, joint: Joint, growth: Growth, *, slide_mm: float, cut_mm: float = 0.0) -> LongLeg:
    """The long leg of an elbow corner in the piece that ``growth`` is of; a floating piece may send its
    whole growth here.

    ``slide_mm`` is how far the earlier piece slides to engage its near end, 0 for the run's first; ``cut_mm``
    by how much its far face stands nearer the corner than laid out, because of how it was cut. Raises
    ValueError for a family without elbows.
    """
    hot, frost = growth.taken_mm("far", growth.hot), growth.taken_mm("far", growth.frost)
    corner = elbow_corner(family, hot_growth_mm=hot, frost_growth_mm=frost, slide_mm=slide_mm, cut_mm=cut_mm)
    elbow, ring, mouth = family.elbow, max(family.oring.from_tip_mm), family.section.lead_in.length_mm
    if elbow is None:
        raise ValueError(f"family {family.id} has no elbow")
    cold = f"{elbow.long_leg_mm:g} - {elbow.stub_mm:g}{_signed(cut_mm)}"
    whole = "; the whole growth, though half is expected at each end" if growth.floats else ""

    def moved(name: str, by_mm: float, value: float) -> Figure:
        sign = "-" if by_mm < 0 else "+"
        text = f"{_short(corner.cold_mm)} {sign} {abs(by_mm):.2f}"
        return _insertion(name, text, value, f"cold insertion and growth{whole}")

    return LongLeg(
        joint=joint.mark,
        piece=joint.earlier,
        least=_insertion(
            "least insertion",
            f"{ring:g} + {mouth:g} + {elbow.margin_mm:g}",
            corner.least_mm,
            "the O-ring nearest the bend past the lead-in, and a margin",
        ),
        most=_insertion(
            "most insertion",
            f"{elbow.long_leg_mm:g} - {elbow.margin_mm:g}",
            corner.most_mm,
            "the bend's shoulder a margin off the cut face",
        ),
        cold=_insertion("insertion cold", cold, corner.cold_mm, "long leg less stub, as fitted"),
        hot=moved("insertion hot", hot, corner.hot_mm),
        frost=moved("insertion at the frost set-back", frost, corner.frost_mm),
        pushed_home=_insertion(
            "insertion pushed home",
            f"{_short(corner.cold_mm)} + {_short(corner.push_home_by_mm)}",
            corner.pushed_home_mm,
            "cold insertion and the stub less the margin, while fitting",
        ),
        work=_work(family, corner, slide_mm, cut_mm),
    )


def _work(family: Family, corner: ElbowCorner, slide_mm: float, cut_mm: float) -> tuple[Figure, ...]:
    """What the hands do with the elbows: pushed home, beside the far wall, drawn out, drawn by the press."""
    e = family.section.bore_u_mm
    elbow = family.elbow
    half = elbow.body_width_mm / 2.0 if elbow is not None else 0.0
    stub, margin = (elbow.stub_mm, elbow.margin_mm) if elbow is not None else (0.0, 0.0)
    push, press = corner.push_home_by_mm, corner.press_draws_mm
    return (
        _insertion(
            "push home at least by",
            f"{slide_mm:g} - {e:g} + {half:g}" if corner.push_needed_mm > 0.0 else "0",
            corner.push_needed_mm,
            "the slide less the elbows' way to the far wall" if slide_mm else "the run's first piece does not slide",
        ),
        _insertion(
            "push home by",
            f"{stub:g} - {margin:g}{_signed(-cut_mm)}",
            push,
            "the stub less the margin: right home",
        ),
        _insertion(
            "elbows off the far wall",
            f"{e:g} + {_short(push)} - {half:g} - {slide_mm:g}",
            corner.to_far_wall_mm,
            "pushed home, while the piece is offered",
        ),
        _insertion(
            "draw out to",
            f"{_short(corner.cold_mm)} + {press:g}",
            corner.draw_out_to_mm,
            "the press distance deeper than cold",
        ),
        _insertion("drawn by the press", f"{press:g}", press, "pressing the next piece draws them back to cold"),
    )


def _short(value: float) -> str:
    return f"{round(value, 2):g}"


def _signed(cut_mm: float) -> str:
    """What a cut adds to a sum; nothing for a piece cut as laid out."""
    if cut_mm == 0.0:
        return ""
    return f" {'-' if cut_mm < 0 else '+'} {_short(abs(cut_mm))}"


def _insertion(name: str, formula: str, value: float, rule: str) -> Figure:
    return Figure(name=name, formula=formula, value=value, unit="mm", rule=rule)
