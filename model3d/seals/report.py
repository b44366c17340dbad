"""The seals of a family: every O-ring's place, the gland they share, and what is wrong with them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from model3d.families.family import Family
from model3d.families.iso3601 import ring_size
from model3d.families.refusals.refusal import Limits
from model3d.figures import Figure
from model3d.findings import Finding
from model3d.seals.gland import Gland, gland_of
from model3d.seals.stretch import Stretch, stretch_of

STRETCH_USUAL_PERCENT = (1.0, 3.0)
"""Usual stretch; common practice, no source."""
STRETCH_MOST_PERCENT = 5.0
"""Past this a ring loses too much of its section and ages; common practice, no source."""
GROOVE_OFF_MM = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class Seal:
    """One O-ring of one leg: ``past_mouth`` is how far past the reamed mouth its middle stands, as fitted."""

    leg: str
    number: int
    past_mouth: Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class SealReport:
    """All seals of a family. They share one gland; ``seals`` are their places, each on both waterways."""

    stretch: Stretch
    gland: Gland
    seals: tuple[Seal, ...]
    findings: tuple[Finding, ...]

    @property
    def figures(self) -> tuple[Figure, ...]:
        """Every figure in order."""
        return (*self.stretch.figures, *self.gland.figures, *(s.past_mouth for s in self.seals))


def seal_report(family: Family, limits: Limits | None = None) -> SealReport:
    """Squeeze, stretch, gland fill and lead-in of every seal of a family, at the tolerance limits.

    ``limits`` are what the family's own sums are held against.
    """
    held = limits or Limits()
    stretch = stretch_of(family)
    gland = gland_of(family, stretch)
    seals = tuple(_seals(family))
    findings = (
        *_squeezes(family, gland, held),
        *_fills(family, gland, held),
        *_stretches(family, stretch),
        *_mouths(family, gland),
        *_past_mouth(family, seals),
        *_off_standard(family),
    )
    return SealReport(stretch=stretch, gland=gland, seals=seals, findings=findings)


def _seals(family: Family) -> Iterator[Seal]:
    legs = [("link", family.link.insertion_mm), ("coupler", family.coupler.insertion_mm)]
    legs.append(("end fitting", family.end_insertion_mm))
    if family.elbow is not None:
        legs.insert(0, ("elbow, short leg", family.elbow.short_leg_mm - family.elbow.stub_mm))
        legs.insert(0, ("elbow, long leg", family.elbow.long_leg_mm - family.elbow.stub_mm))
    mouth = family.section.lead_in.length_mm
    for leg, insertion in legs:
        for number, tip in enumerate(family.oring.from_tip_mm, start=1):
            past = Figure(
                name=f"{leg}, O-ring {number} past the mouth",
                formula=f"{insertion:g} - {tip:g} - {mouth:g}",
                value=insertion - tip - mouth,
                unit="mm",
                rule="insertion less its place from the tip less the lead-in, as fitted",
            )
            yield Seal(leg=leg, number=number, past_mouth=past)


def _found(
    family: Family, code: str, figure: Figure, limit: float, says: str, remedy: str, note: bool = False
) -> Finding:
    return Finding(
        code=code,
        severity="note" if note else "error",
        where=f"O-rings of family {family.id}",
        message=f"{figure.name} {figure.value:.1f} {figure.unit}, {says}",
        remedy=remedy,
        measured=figure.value,
        limit=limit,
        unit=figure.unit,
    )


def _squeezes(family: Family, gland: Gland, limits: Limits) -> Iterator[Finding]:
    remedy = "Measure section and gland depth again, or take rings of another section."
    tolerance = (limits.squeeze_least_at_tolerance, limits.squeeze_most_at_tolerance)
    for figure, (least, most) in (
        (gland.squeeze, (limits.squeeze_least, limits.squeeze_most)),
        (gland.squeeze_least, tolerance),
        (gland.squeeze_most, tolerance),
        (gland.squeeze_hard_over, (0.0, 1.0)),
    ):
        if figure.value < 100.0 * least:
            yield _found(family, "seal-squeeze", figure, 100.0 * least, f"at least {least:.0%}", remedy)
        elif figure.value > 100.0 * most:
            yield _found(family, "seal-squeeze", figure, 100.0 * most, f"at most {most:.0%}", remedy)


def _fills(family: Family, gland: Gland, limits: Limits) -> Iterator[Finding]:
    for figure, most in ((gland.fill, limits.fill_most), (gland.fill_most, limits.fill_most_at_tolerance)):
        if figure.value > 100.0 * most:
            remedy = "The groove must be wider, or the ring's section smaller."
            yield _found(family, "seal-fill", figure, 100.0 * most, f"at most {most:.0%}", remedy)


def _stretches(family: Family, stretch: Stretch) -> Iterator[Finding]:
    if stretch.nominal is None or stretch.least is None or stretch.most is None:
        return
    low, high = STRETCH_USUAL_PERCENT
    remedy = "Take rings of another inside diameter."
    if stretch.nominal.value < 0.0:
        yield _found(family, "seal-stretch", stretch.nominal, 0.0, "the ring lies loose in its groove", remedy)
    elif stretch.nominal.value > STRETCH_MOST_PERCENT:
        says = f"at most {STRETCH_MOST_PERCENT:g} %"
        yield _found(family, "seal-stretch", stretch.nominal, STRETCH_MOST_PERCENT, says, remedy)
    elif not low <= stretch.nominal.value <= high:
        limit = low if stretch.nominal.value < low else high
        says = (
            f"usually {low:g} to {high:g} %; {stretch.least.value:.1f} to {stretch.most.value:.1f} % within tolerance"
        )
        yield _found(
            family,
            "seal-stretch",
            stretch.nominal,
            limit,
            says,
            "Nothing to do if the rings stay in place.",
            True,
        )


def _mouths(family: Family, gland: Gland) -> Iterator[Finding]:
    mouth, remedy = gland.mouth, "Ream the mouths longer, at no more than 15 degrees."
    radial = family.section.lead_in.radial_mm
    if mouth.stands_out.value > radial + 1e-9:
        says = f"the mouth is only {radial:g} wider"
        yield _found(family, "seal-lead-in", mouth.stands_out, radial, says, "Ream the mouths wider.")
    if mouth.asked is None:
        yield _found(family, "seal-lead-in", mouth.angle, 20.0, "ISO 3601-2 gives no lead-in for this mouth", remedy)
    elif mouth.length.value < mouth.asked.value:
        says = f"ISO 3601-2 asks {mouth.asked.value:g} at {mouth.angle.value:.1f} degrees"
        yield _found(family, "seal-lead-in", mouth.length, mouth.asked.value, says, remedy)


def _past_mouth(family: Family, seals: tuple[Seal, ...]) -> Iterator[Finding]:
    half = family.oring.section_mm / 2.0
    for seal in seals:
        if seal.past_mouth.value < half:
            says = f"half a ring, {half:g}, must be past it to seal"
            yield _found(family, "seal-in-mouth", seal.past_mouth, half, says, "The leg must stand deeper.")


def _off_standard(family: Family) -> Iterator[Finding]:
    """A groove other than ISO 3601-2's is said, not refused: squeeze and fill judge it."""
    oring, size = family.oring, ring_size(family.oring.section_mm)
    if size is None:
        return
    for name, value, asked in (
        ("gland depth", oring.gland_depth_mm, size.groove_depth_mm),
        ("groove width", oring.groove_width_mm, size.groove_width_mm),
    ):
        if abs(value - asked) > GROOVE_OFF_MM:
            figure = Figure(name=name, formula=f"{value:g}", value=value, unit="mm", rule="static radial housing")
            says = f"ISO 3601-2 has {asked:g} for a section of {size.section_mm:g}"
            yield _found(family, "seal-groove", figure, asked, says, "Nothing to do where squeeze and fill hold.", True)
