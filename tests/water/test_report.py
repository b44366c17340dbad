"""The water report of whole layouts, against sums by hand."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from model3d.families.family import Family
from model3d.families.reading import profiles_folder, read_family
from model3d.layout import lay_out
from model3d.rooms import CheckedPlan, DryPlan, Heat
from model3d.water import WaterReport, water_report
from model3d.water.content import piece_mass, run_content
from model3d.water.touch import bears_for
from model3d.water.waterway import Stretch, round_bore, waterway
from tests.layout.rooms_by_hand import plan_of, ring_of, run_over

SQUARE = [(0.0, 0.0), (3600.0, 0.0), (3600.0, 3000.0), (0.0, 3000.0)]
A = read_family(profiles_folder() / "a-square.yaml")


def three_walls(*, end_fitting: str = "return", dry: bool = False) -> CheckedPlan:
    """A run over walls 4, 1 and 2 of a square room, one wall dry."""
    ring = ring_of(SQUARE)
    pieces = (DryPlan(id="d", wall=ring.walls[2], from_mm=500.0, to_mm=3000.0),) if dry else ()
    return plan_of(ring, run_over(ring, 4, 3, end_fitting=end_fitting), dry=pieces)


def reported(plan: CheckedPlan, family: Family = A) -> WaterReport:
    """Laid out and reported."""
    return water_report(plan, lay_out(plan, family), family)


def with_heat(plan: CheckedPlan, **heat: object) -> CheckedPlan:
    """The plan with other heat."""
    return replace(plan, heat=replace(Heat(), **heat))


def test_output_piece_by_piece() -> None:
    """A 3498 piece of 165 W/m at 55/45/20 gives 165 x 3.498 x (30/50)^1.3 = 297.1 W, by the logarithmic
    mean a little less.
    """
    report = reported(three_walls())
    piece = report.outputs[1]
    assert piece.arithmetic.value == pytest.approx(165 * 3.498 * 0.5148, rel=1e-4)
    assert piece.arithmetic.formula == "165 x 3.498 x (30 / 50)^1.3"
    log = 10 / math.log(35 / 25)
    assert piece.logarithmic.value == pytest.approx(165 * 3.498 * (log / 50) ** 1.3)
    assert report.runs[0].arithmetic.value == pytest.approx(sum(o.arithmetic.value for o in report.outputs))


def test_against_the_heat_loss() -> None:
    """A room that loses more than its runs give is a warning with both; one that loses less has a balance
    above nought.
    """
    plan = three_walls()
    given = reported(plan).output.value
    cold, warm = reported(with_heat(plan, loss_w=1200.0)), reported(with_heat(plan, loss_w=500.0))
    (finding,) = cold.findings
    assert (finding.code, finding.severity, finding.unit) == ("heat-too-little", "warning", "W")
    assert (finding.measured, finding.limit) == (given, 1200.0)
    assert warm.findings == ()
    assert warm.balance is not None
    assert warm.balance.value == pytest.approx(given - 500.0)
    assert reported(plan).balance is None


def test_flow_splits_between_the_waterways() -> None:
    """The flow is Q / (cp dT); half goes in each waterway, or all of it where the run turns back, through
    twice the stretches.
    """
    report, back = reported(three_walls()), reported(three_walls(end_fitting="turn-back"))
    flow, turned = report.runs[0].flow, back.runs[0].flow
    assert flow is not None
    assert turned is not None
    assert flow.mass.value == pytest.approx(report.output.value / (4179.1 * 10), rel=1e-4)
    assert flow.each.value == flow.mass.value / 2
    assert turned.each.value == turned.mass.value
    assert len(turned.drops) == 2 * len(flow.drops)
    assert turned.drop.value - turned.valve.value > 4 * (flow.drop.value - flow.valve.value)


def test_pressure_drop_by_part() -> None:
    """Every part of the run takes its share, and valve and parts make up the whole."""
    flow = reported(three_walls()).runs[0].flow
    assert flow is not None
    assert [p.part for p in flow.parts] == ["valve end", "r-1", "r-J1", "r-2", "r-J2", "r-3", "return end"]
    assert all(p.drop_pa > 0 for p in flow.parts)
    assert flow.valve.value + sum(p.drop_pa for p in flow.parts) == pytest.approx(flow.drop.value)
    litres = flow.mass.value / 988.134
    assert flow.valve.value == pytest.approx(1e5 * (litres * 3600 / 0.6) ** 2, rel=1e-5)


def test_a_bore_by_hand() -> None:
    """The bore of a piece: 3498 less the legs' 24 and 34, obround 11 x 20, laminar, 64 / Re by Darcy and
    Weisbach.
    """
    flow = reported(three_walls()).runs[0].flow
    assert flow is not None
    (bore,) = [d for d in flow.drops if d.stretch.part == "r-2"]
    area, around = 11 * 9 + math.pi * 5.5**2, 11 * math.pi + 18
    across = 4 * area / around
    v = flow.each.value / (988.134 * area * 1e-6)
    reynolds = 988.134 * v * across / 1000 / 0.54656e-3
    assert reynolds < 2040
    assert bore.stretch.length_mm == pytest.approx(3440.0)
    assert bore.friction.value == pytest.approx(64 / reynolds * 3440 / across * 988.134 * v * v / 2, rel=1e-4)


def test_links_narrow_the_way() -> None:
    """The water is fastest in a link's tail, through 6 mm; a link takes more than an elbow."""
    ring = ring_of(SQUARE)
    flow = reported(plan_of(ring, run_over(ring, 4, 3, uses={"c1": "link"}))).runs[0].flow
    assert flow is not None
    parts = {p.part: p for p in flow.parts}
    fastest = max(flow.drops, key=lambda d: d.velocity.value)
    assert (fastest.stretch.part, fastest.stretch.what) == ("r-J1", "tail")
    assert parts["r-J1"].drop_pa > 3 * parts["r-J2"].drop_pa


def test_too_fast_and_too_steep() -> None:
    """Past 1.0 m/s, and past 300 Pa/m in a bore (CIBSE Guide B, 1986), the run is warned of with the
    figure.
    """
    plan = three_walls(end_fitting="turn-back")
    hurried = replace(plan, temperatures=replace(plan.temperatures, flow_c=70.0, return_c=69.4))
    codes = {f.code: f for f in reported(hurried).findings if f.code != "surface-burns"}
    assert set(codes) == {"water-too-fast", "pressure-too-steep"}
    assert all(f.measured is not None and f.limit is not None and f.measured > f.limit for f in codes.values())
    assert reported(plan).findings == ()


@pytest.mark.parametrize(("bore_mm", "ml_per_m"), [(13.6, 145.3), (20.2, 320.5)])
def test_content_of_tube(bore_mm: float, ml_per_m: float) -> None:
    """EN 1057 tube holds 145.3 (15 x 0.7) and 320.5 ml/m (22 x 0.9); a run has two waterways."""
    metre = Stretch(part="x", what="bore", shape=round_bore(bore_mm), length_mm=1000.0)
    assert run_content("r", [metre]).value == pytest.approx(2 * ml_per_m / 1000, abs=1e-4)


def test_mass_dry_and_filled() -> None:
    """A piece weighs section x length x density, and its water more; a dry piece has no bores and holds
    none.
    """
    plan = three_walls(dry=True)
    layout = lay_out(plan, A)
    piece, dry = piece_mass(A, layout.pieces[1], 988.0), piece_mass(A, layout.dry_pieces[0], 988.0)
    heated = A.section.spec().metal_area_mm2
    assert piece.dry.value == pytest.approx(heated * 3498 * 2700e-9)
    assert piece.water.value == pytest.approx(2 * (99 + math.pi * 5.5**2) * 3498e-6)
    assert piece.filled.value == pytest.approx(piece.dry.value + piece.water.value * 0.988)
    assert dry.water.value == 0.0
    assert dry.filled.value == dry.dry.value
    assert [o.mark for o in reported(plan).outputs] == ["r-1", "r-2", "r-3"]


def test_content_of_a_run() -> None:
    """A run holds its bores free of legs and its fittings' passages, both waterways."""
    plan = three_walls()
    layout = lay_out(plan, A)
    stretches = waterway(A, layout.runs[0])
    bores = sum(s.length_mm for s in stretches if s.what == "bore")
    assert bores == pytest.approx(sum(p.cut_length_mm for p in layout.pieces) - 2 * (34 + 24) - 2 * 24)
    whole = reported(plan).runs[0].content.value
    assert 0.0 < whole - 2 * bores * (99 + math.pi * 5.5**2) * 1e-6 < 0.1


@pytest.mark.parametrize(
    ("surface_c", "time"),
    [(43, "8 hours and more"), (48, "10 minutes"), (51, "1 minute"), (60, "1 second"), (70, None)],
)
def test_touch_limits(surface_c: float, time: str | None) -> None:
    """Bare metal may be touched 8 hours at 43, 10 minutes at 48, 1 minute at 51, 1 second at about 65 C
    (ISO 13732-1).
    """
    assert bears_for(surface_c) == time
    assert bears_for(surface_c + 0.01) != time or time in ("1 second", None)


@pytest.mark.parametrize(
    ("flow_c", "vulnerable", "codes"),
    [
        (43.0, True, []),
        (43.5, True, ["surface-too-hot"]),
        (60.0, False, []),
        (66.0, False, ["surface-burns"]),
    ],
)
def test_surface_where_vulnerable_people_live(flow_c: float, vulnerable: bool, codes: list[str]) -> None:
    """Past 43 C where vulnerable people live is an error (NHS, HSE); elsewhere past 65 C is a warning."""
    plan = with_heat(three_walls(), vulnerable=vulnerable)
    plan = replace(plan, temperatures=replace(plan.temperatures, flow_c=flow_c, return_c=flow_c - 8.0))
    found = reported(plan).findings
    assert [f.code for f in found] == codes
    assert [f.severity for f in found] == (["error"] if "surface-too-hot" in codes else ["warning"] * len(codes))


def test_water_no_warmer_than_the_room() -> None:
    """Water that comes back no warmer than the room is warned of; a run that gives nothing has no flow."""
    plan = with_heat(three_walls(), room_c=50.0)
    report = reported(plan)
    assert [f.code for f in report.findings] == ["water-no-warmer"]
    assert report.runs[0].flow is None
    assert report.output.value == 0.0


def test_figures_of_a_mark() -> None:
    """Every figure of a piece, of a joint and of a run is found by its mark."""
    report = reported(three_walls())
    names = {f.name for f in report.figures_of("r-2")}
    assert {"output of r-2, logarithmic mean", "mass of r-2, filled", "velocity, r-2, bore"} <= names
    assert {"minor losses, r-J1, bend"} <= {f.name for f in report.figures_of("r-J1")}
    assert {"flow", "pressure drop of the run"} <= {f.name for f in report.figures_of("r")}


@pytest.mark.parametrize("name", ["b-moulded", "c-low"])
def test_round_bores_and_other_families(name: str) -> None:
    """Families with round bores, and without elbows, are reported as well."""
    family = read_family(profiles_folder() / f"{name}.yaml")
    report = reported(three_walls(), family)
    assert report.runs[0].flow is not None
    assert report.output.value > 0
