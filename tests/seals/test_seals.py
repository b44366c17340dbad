"""O-ring seals against ISO 3601-1 and -2 (figures read in a copy) and against sums by hand."""

from __future__ import annotations

import math
import re
from pathlib import Path
from typing import Any

import pytest

from model3d.families.family import Family
from model3d.families.reading import known_families, profiles_folder, read_family
from model3d.seals import SealReport, seal_report
from model3d.seals.ring_sizes import inside_tolerance_mm, nearest_inside_mm
from model3d.seals.stretch import section_left

PROFILES: Path = profiles_folder()
A = read_family(PROFILES / "a-square.yaml")


def with_ring(family: Family = A, **ring: Any) -> Family:
    """The family with other figures of its O-rings, past the family's own refusals."""
    return family.model_copy(update={"oring": family.oring.model_copy(update=ring)})


def codes(report: SealReport, severity: str = "error") -> list[tuple[str, str]]:
    """Code and figure of each finding of one severity."""
    return [(f.code, re.split(r" -?\d", f.message)[0]) for f in report.findings if f.severity == severity]


@pytest.mark.parametrize(
    ("section", "tolerance", "depth", "width", "squeeze", "fill"),
    [
        (1.78, 0.08, 1.30, 2.40, 27.0, 79.8),
        (2.62, 0.09, 2.00, 3.60, 23.7, 74.9),
        (3.53, 0.10, 2.70, 4.80, 23.5, 75.5),
    ],
)
def test_standard_housings(
    section: float, tolerance: float, depth: float, width: float, squeeze: float, fill: float
) -> None:
    """ISO 3601-2's static radial housings squeeze 1.78, 2.62 and 3.53 rings by 27.0, 23.7, 23.5 % and fill
    79.8, 74.9, 75.5 %.
    """
    ring = with_ring(section_mm=section, section_tolerance_mm=tolerance, gland_depth_mm=depth, groove_width_mm=width)
    gland = seal_report(ring).gland
    assert gland.squeeze.value == pytest.approx(squeeze, abs=0.05)
    assert gland.fill.value == pytest.approx(fill, abs=0.05)
    assert "seal-groove" not in {f.code for f in seal_report(ring).findings}


@pytest.mark.parametrize(
    ("section", "angle", "asked"),
    [(1.78, 15, 2.5), (1.78, 20, 2.0), (2.62, 15, 3.5), (2.62, 20, 2.5), (3.53, 15, 4.5), (3.53, 20, 3.5)],
)
def test_lead_in_asked(section: float, angle: float, asked: float) -> None:
    """ISO 3601-2 asks 2.5, 3.5, 4.5 mm of lead-in at 15 degrees and 2.0, 2.5, 3.5 at 20; a shorter one is
    an error.
    """
    for length, errors in ((asked, []), (asked - 0.01, ["seal-lead-in"])):
        radial = length * math.tan(math.radians(angle - 1e-9))
        lead_in = A.section.lead_in.model_copy(update={"length_mm": length, "radial_mm": radial})
        family = with_ring(
            A.model_copy(update={"section": A.section.model_copy(update={"lead_in": lead_in})}),
            section_mm=section,
        )
        report = seal_report(family)
        assert report.gland.mouth.asked is not None
        assert report.gland.mouth.asked.value == asked
        short = [f.code for f in report.findings if f.code == "seal-lead-in" and "asks" in f.message]
        assert short == errors


@pytest.mark.parametrize(("stretch", "loss_percent"), [(0.03, 1.47), (0.05, 2.41), (0.0, 0.0)])
def test_section_lost_by_stretch(stretch: float, loss_percent: float) -> None:
    """A ring stretched by 3 % loses 1.47 % of its section, by 5 % 2.41 %: 1 - (1 + e)^-1/2."""
    assert 100 * (1 - section_left(stretch)) == pytest.approx(loss_percent, abs=0.005)


def test_stretch_goes_by_the_perimeter() -> None:
    """Family (a)'s groove floor is 8.4 x 17.4: pi 8.4 + 2 x 9 = 44.39 mm round, so a 14.00 ring is
    stretched by 0.93 %.
    """
    report = seal_report(A)
    assert report.stretch.perimeter.value == pytest.approx(44.389, abs=1e-3)
    assert report.stretch.inside is not None
    assert report.stretch.nominal is not None
    assert report.stretch.inside.value == 14.00
    assert report.stretch.nominal.value == pytest.approx(0.925, abs=0.005)
    assert codes(report, "note") == [("seal-stretch", "stretch")]


def test_a_ring_of_ones_own() -> None:
    """A family's own ring goes before the series: 13.85 is stretched by 2.0 %, with nothing to say."""
    report = seal_report(with_ring(inside_diameter_mm=13.85))
    assert report.stretch.nominal is not None
    assert report.stretch.nominal.value == pytest.approx(100 * (44.389 / math.pi / 13.85 - 1), abs=1e-3)
    assert report.findings == ()


@pytest.mark.parametrize(("inside", "says"), [(14.5, "lies loose"), (13.0, "at most 5 %")])
def test_a_wrong_ring_is_found(inside: float, says: str) -> None:
    """A ring that lies loose, and one stretched past 5 %, are errors with the figure."""
    report = seal_report(with_ring(inside_diameter_mm=inside))
    (finding,) = [f for f in report.findings if f.code == "seal-stretch"]
    assert finding.severity == "error"
    assert says in finding.message


def test_tolerance_limits() -> None:
    """At the limits: the thin ring most stretched in the deepest gland, the thick one least stretched in
    the shallowest.
    """
    gland = seal_report(with_ring(inside_diameter_mm=13.85, gland_tolerance_mm=0.03)).gland
    off = inside_tolerance_mm(13.85)
    thin = 1.70 * (44.389 / math.pi / (13.85 - off)) ** -0.5
    thick = 1.86 * (44.389 / math.pi / (13.85 + off)) ** -0.5
    assert gland.squeeze_least.value == pytest.approx(100 * (thin - 1.33) / thin, abs=1e-3)
    assert gland.squeeze_most.value == pytest.approx(100 * (thick - 1.27) / thick, abs=1e-3)
    assert gland.squeeze_hard_over.value == pytest.approx(100 * (thin - 1.53) / thin, abs=1e-3)
    assert gland.fill_most.value == pytest.approx(100 * math.pi / 4 * thick**2 / (1.27 * 2.40), abs=1e-3)


@pytest.mark.parametrize(
    ("ring", "code", "figure"),
    [
        ({"gland_depth_mm": 1.55}, "seal-squeeze", "squeeze"),
        ({"gland_depth_mm": 1.20}, "seal-squeeze", "squeeze"),
        ({"section_tolerance_mm": 0.35}, "seal-squeeze", "least squeeze"),
        ({"section_tolerance_mm": 0.30}, "seal-squeeze", "most squeeze"),
        ({"gland_tolerance_mm": 0.20}, "seal-squeeze", "squeeze with the leg hard over"),
        ({"groove_width_mm": 2.2}, "seal-fill", "gland fill"),
        ({"section_tolerance_mm": 0.20}, "seal-fill", "most gland fill"),
        ({"section_tolerance_mm": 0.25}, "seal-lead-in", "ring stands out of the bore"),
        ({"from_tip_mm": (6.0, 20.5)}, "seal-in-mouth", "link, O-ring 2 past the mouth"),
        ({"section_mm": 4.0}, "seal-lead-in", "lead-in angle"),
    ],
)
def test_each_fault_is_found(ring: dict[str, Any], code: str, figure: str) -> None:
    """Each figure past its limit is an error that names it; within it, there is none."""
    assert codes(seal_report(A)) == []
    found = [f for f in seal_report(with_ring(**ring)).findings if f.severity == "error" and f.code == code]
    assert any(f.message.startswith(f"{figure} ") for f in found)
    assert all(f.measured is not None and f.limit is not None for f in found)


def test_every_seal_has_its_place() -> None:
    """Each O-ring of each leg is listed: the long leg's second stands 34 - 14 - 3 = 17 past the mouth, a
    link's 7.
    """
    seals = {(s.leg, s.number): s.past_mouth.value for s in seal_report(A).seals}
    assert len(seals) == 10
    assert seals["elbow, long leg", 2] == 17.0
    assert seals["link", 2] == 7.0


@pytest.mark.parametrize("name", known_families())
def test_reference_families_seal(name: str) -> None:
    """No reference family's seals have an error."""
    report = seal_report(read_family(PROFILES / f"{name}.yaml"))
    assert [f for f in report.findings if f.severity != "note"] == []
    assert len(report.figures) == len({f.name for f in report.figures})


def test_a_groove_of_ones_own_is_said() -> None:
    """A groove other than ISO 3601-2's is a note with both figures."""
    (finding,) = [f for f in seal_report(with_ring(groove_width_mm=2.6)).findings if f.code == "seal-groove"]
    assert (finding.severity, finding.measured, finding.limit) == ("note", 2.6, 2.40)


def test_the_series() -> None:
    """The nearest size of a section's series is taken; a section without one has none."""
    assert nearest_inside_mm(1.78, 13.85) == 14.00
    assert nearest_inside_mm(2.62, 11.0) == 10.77
    assert nearest_inside_mm(5.33, 40.0) is None
