"""STEP files, read back by a parser that knows nothing of the CAD kernel."""

from __future__ import annotations

import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import cadquery as cq
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from OCP.Interface import Interface_Static

from model3d.exchange.assembly import Node, placed_leaves
from model3d.exchange.step import write_step
from model3d.geometry.placement import Placement, at, turned_about_z

from .part21 import parse
from .sample import LYING, sample
from .step_faults import step_faults

STAMP = "2024-02-29T12:00:00"


@pytest.fixture(scope="module")
def text(tmp_path_factory: pytest.TempPathFactory) -> str:
    """The sample as a STEP file."""
    path = tmp_path_factory.mktemp("süd 1") / "mödel.step"
    its = sample()
    write_step(path, its.root, its.shapes, its.names, time_stamp=STAMP)
    return path.read_text(encoding="ascii")


def _faults(text: str) -> list[str]:
    its = sample()
    return step_faults(text, its.root, its.names)


def test_file_says_what_the_tree_says(text: str) -> None:
    """Names, tree, placements, shared bodies, colours, unit and schema are those of the assembly."""
    assert _faults(text) == []


def _moved(text: str) -> str:
    """One wall stands .01 mm further along."""
    return text.replace("(4.E+03,0.,0.)", "(4.00001E+03,0.,0.)", 1)


def _turned(text: str) -> str:
    """One wall is turned by a hundred-thousandth."""
    found = re.search(r"DIRECTION\('',\((-4\.36\d+E-02),", text)
    assert found is not None
    return text.replace(found[1], "-4.3629387365E-02")


def _nameless_occurrence(text: str) -> str:
    """An occurrence has lost its name."""
    return text.replace("'bracket 1'", "''", 1)


def _nameless_product(text: str) -> str:
    """A shape has lost its name."""
    return text.replace("PRODUCT('Bracket','Bracket'", "PRODUCT('Bracket',''")


def _mangled_name(text: str) -> str:
    """A letter outside ASCII came out as another."""
    return text.replace("\\X2\\00FC", "\\X2\\00FB")


def _lost_part(text: str) -> str:
    """A part is placed nowhere."""
    part = re.search(r"#\d+ = CONTEXT_DEPENDENT_SHAPE_REPRESENTATION[^;]*;\n", text)
    assert part is not None
    return text.replace(part[0], "")


def _swapped(text: str) -> str:
    """Two occurrences have each other's names."""
    return (
        text.replace("'piece 1'", "'~'")
        .replace("'St\\X2\\00FC\\X0\\ck 2'", "'piece 1'")
        .replace("'~'", "'St\\X2\\00FC\\X0\\ck 2'")
    )


def _repainted(text: str) -> str:
    """The colour of one occurrence is another."""
    return text.replace("COLOUR_RGB('',0.900000", "COLOUR_RGB('',0.890000")


def _unpainted(text: str) -> str:
    """No style is listed any more."""
    return re.sub(r"#\d+ = MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION[^;]*;\n", "", text)


def _crossed_styles(text: str) -> str:
    """The style of an occurrence replaces that of another shape."""
    bodies = re.findall(r"= STYLED_ITEM\('colour',\(#\d+\),(#\d+)\)", text)
    return re.sub(rf"(OVER_RIDING_STYLED_ITEM\('[^']*',\(#\d+\),){bodies[0]}", rf"\g<1>{bodies[1]}", text, count=1)


def _other_schema(text: str) -> str:
    """The header names another application protocol."""
    return text.replace(
        "'AP242_MANAGED_MODEL_BASED_3D_ENGINEERING_MIM_LF {1 0 10303 442 1 1 4 }'", "'AUTOMOTIVE_DESIGN'"
    )


def _metres(text: str) -> str:
    """The lengths are said to be metres."""
    return text.replace("SI_UNIT(.MILLI.,.METRE.)", "SI_UNIT($,.METRE.)", 1)


def _same_ids(text: str) -> str:
    """Two products have one id."""
    return text.replace("PRODUCT('run 2 / wall 1'", "PRODUCT('run 2'")


def _body_twice(text: str) -> str:
    """A body is there twice."""
    found = re.search(r"(#\d+)( = MANIFOLD_SOLID_BREP[^;]*;\n)", text)
    assert found is not None
    return text.replace(found[0], found[0] + "#999999" + found[2])


@pytest.mark.parametrize(
    ("spoil", "expected"),
    [
        (_moved, "place of wall 2: 0.010000 mm off"),
        (_turned, "axes of wall 2"),
        (_nameless_occurrence, "parts of wall 1: "),
        (_nameless_product, "product name: '' for 'Bracket'"),
        (_mangled_name, "product name: "),
        (_lost_part, "placed nowhere"),
        (_swapped, "parts of wall 1: "),
        (_repainted, "colour of Stück 2"),
        (_unpainted, "colour of tube"),
        (_crossed_styles, "replaces that of another body"),
        (_other_schema, "schema: "),
        (_metres, "units: "),
        (_same_ids, "products: two have one id"),
        (_body_twice, "bodies: 5 for 4 shapes"),
    ],
)
def test_checker_finds_a_spoilt_file(text: str, spoil: Callable[[str], str], expected: str) -> None:
    """A file that is wrong in one place only is found out, by the name of what is wrong."""
    spoilt = spoil(text)
    assert spoilt != text
    try:
        found = _faults(spoilt)
    except ValueError as reason:
        found = [str(reason)]
    assert any(expected in fault for fault in found), found


def test_each_shape_is_written_once(text: str) -> None:
    """However often a shape is placed, its body is in the file once, and so is its product."""
    exchange = parse(text)
    assert len(exchange.of("MANIFOLD_SOLID_BREP")) + len(exchange.of("BREP_WITH_VOIDS")) == 4
    assert len(exchange.of("PRODUCT")) == 4 + 6
    assert len(exchange.of("NEXT_ASSEMBLY_USAGE_OCCURRENCE")) == 2 + 3 + 1 + 12


def test_curves_on_surfaces_are_left_out(text: str) -> None:
    """The file has no curves in parameter space, which every reader works out anew: that halves it."""
    assert parse(text).of("PCURVE") == []
    assert parse(text).of("SURFACE_CURVE") == []


def test_header_names_the_room_and_the_time(text: str) -> None:
    """The header carries the room's name, the time stamp asked for, and no person or firm."""
    name, stamp, authors, firms, _, system, approval = parse(text).header["FILE_NAME"]
    assert (name, stamp) == (sample().root.name, STAMP)
    assert (authors, firms, approval) == (("",), ("",), "")
    assert str(system).startswith("dryfit ")


def test_two_writes_are_equal_byte_for_byte(text: str, tmp_path: Path) -> None:
    """With a time stamp given, one assembly gives one file: again in this process, and in a fresh one."""
    its = sample()
    write_step(tmp_path / "again.step", its.root, its.shapes, its.names, time_stamp=STAMP)
    assert (tmp_path / "again.step").read_text(encoding="ascii") == text
    script = (
        "import sys; from pathlib import Path; from tests.exchange.sample import sample;"
        "from model3d.exchange.step import write_step; its = sample();"
        f"write_step(Path(sys.argv[1]), its.root, its.shapes, its.names, time_stamp={STAMP!r})"
    )
    home = Path(__file__).parents[2]
    subprocess.run([sys.executable, "-c", script, str(tmp_path / "fresh.step")], check=True, cwd=home)
    assert (tmp_path / "fresh.step").read_text(encoding="ascii") == text


def test_time_stamp_alone_changes_the_file(text: str, tmp_path: Path) -> None:
    """Another time stamp changes the file, in that one place."""
    its = sample()
    write_step(tmp_path / "later.step", its.root, its.shapes, its.names, time_stamp="2030-01-01T00:00:00")
    later = (tmp_path / "later.step").read_text(encoding="ascii")
    assert later != text
    assert later.replace("2030-01-01T00:00:00", STAMP) == text


def test_time_of_writing_is_the_default(tmp_path: Path) -> None:
    """Without a time stamp the header has the time of writing, with its zone."""
    its = sample()
    write_step(tmp_path / "now.step", its.root, its.shapes, its.names, time_stamp=None)
    stamp = parse((tmp_path / "now.step").read_text(encoding="ascii")).header["FILE_NAME"][1]
    assert re.fullmatch(r"20\d\d-\d\d-\d\dT\d\d:\d\d:\d\d\+00:00", str(stamp))


def test_kernel_settings_are_put_back(tmp_path: Path) -> None:
    """Writing leaves the kernel's process-wide settings as they were, and says nothing."""
    Interface_Static.SetCVal_s("write.step.schema", "AP214IS")
    Interface_Static.SetIVal_s("write.surfacecurve.mode", 1)
    its = sample()
    write_step(tmp_path / "a.step", its.root, its.shapes, its.names, time_stamp=STAMP)
    assert Interface_Static.CVal_s("write.step.schema") == "AP214IS"
    assert Interface_Static.IVal_s("write.surfacecurve.mode") == 1


def test_writing_prints_nothing(tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    """The writer prints nothing, neither of its own nor of the kernel's."""
    its = sample()
    write_step(tmp_path / "a.step", its.root, its.shapes, its.names, time_stamp=STAMP)
    assert capfd.readouterr() == ("", "")


_NAMES = st.text(st.characters(exclude_categories=("Cc", "Cs")), min_size=1, max_size=90).filter(str.strip)
_PLACES = st.builds(
    lambda turn, x, y, z, lying: turned_about_z(turn, (x, y, z)) @ (LYING if lying else Placement()),
    st.floats(-360.0, 360.0),
    st.floats(-6e4, 6e4),
    st.floats(-6e4, 6e4),
    st.floats(-3e3, 3e3),
    st.booleans(),
)
_COLOURS = st.none() | st.tuples(*[st.floats(0.0, 1.0)] * 3)


@st.composite
def _trees(draw: st.DrawFn) -> Node:
    leaves = st.builds(
        lambda name, place, key, colour: Node(name=name, placement=place, shape_key=key, colour=colour),
        _NAMES,
        _PLACES,
        st.sampled_from(("bracket", "tube")),
        _COLOURS,
    )

    def several(nodes: st.SearchStrategy[Node]) -> st.SearchStrategy[tuple[Node, ...]]:
        return st.lists(nodes, min_size=1, max_size=3, unique_by=lambda node: node.name).map(tuple)

    nodes = leaves
    for _ in range(2):
        inner = st.builds(
            lambda name, place, children: Node(name=name, placement=place, children=children),
            _NAMES,
            _PLACES,
            several(nodes),
        )
        nodes = st.one_of(inner, inner, leaves)
    return Node(name=draw(_NAMES), children=draw(several(nodes)))


@settings(max_examples=25, deadline=None)
@given(root=_trees(), names=st.lists(_NAMES, min_size=2, max_size=2, unique=True))
def test_any_tree_comes_back(tmp_path_factory: pytest.TempPathFactory, root: Node, names: list[str]) -> None:
    """Law: whatever the names, places and colours, three levels deep, the file says the same as the tree."""
    path = tmp_path_factory.mktemp("law") / "any.step"
    shape_names = dict(zip(("bracket", "tube"), names, strict=True))
    write_step(path, root, sample().shapes, shape_names, time_stamp=STAMP)
    assert step_faults(path.read_text(encoding="ascii"), root, shape_names) == []


def test_root_must_stand_at_its_origin(tmp_path: Path) -> None:
    """A STEP file has no place for its root: one that is moved, or is itself a shape, is refused by name."""
    its = sample()
    moved = Node(name="off", placement=at(1.0, 0.0, 0.0), children=its.root.children)
    for root in (moved, Node(name="lone", shape_key="tube")):
        with pytest.raises(ValueError, match=root.name):
            write_step(tmp_path / "a.step", root, its.shapes, its.names, time_stamp=STAMP)
    assert list(tmp_path.iterdir()) == []


def test_time_stamp_must_be_a_time(tmp_path: Path) -> None:
    """A time stamp that is no ISO 8601 time is refused."""
    its = sample()
    with pytest.raises(ValueError, match="yesterday"):
        write_step(tmp_path / "a.step", its.root, its.shapes, its.names, time_stamp="yesterday")


def _box(size_mm: float) -> cq.Solid:
    return cq.Solid.makeBox(size_mm, size_mm, size_mm)


_TWO = cq.Compound.makeCompound([_box(1.0), _box(2.0).moved(cq.Location((9.0, 0.0, 0.0)))])
_ONE = _box(3.0)


@pytest.mark.parametrize(
    ("shapes", "names", "message"),
    [
        ({"a": _box(1.0)}, {"a": "A", "b": "B"}, "'B' has no solid"),
        ({"a": _box(1.0), "b": _box(2.0)}, {"a": "A"}, "'b' has no name"),
        ({"a": _box(1.0), "b": _box(2.0)}, {"a": "A", "b": "A"}, "the name of 'b' is that of 'a' too"),
        ({"a": _box(1.0), "b": _TWO}, {"a": "A", "b": "B"}, "'B' has 2 solids, not one"),
        ({"a": _ONE, "b": _ONE}, {"a": "A", "b": "B"}, "the solid of 'B' is that of 'A' too"),
        ({"a": _box(1.0), "b": _box(2.0)}, {"a": "A", "b": "B\n"}, "control character"),
    ],
)
def test_shapes_must_be_single_named_solids(
    tmp_path: Path, shapes: dict[str, cq.Shape], names: dict[str, str], message: str
) -> None:
    """A leaf without solid or name, a name or solid under two keys, a shape of two solids are refused."""
    root = Node(name="r", children=(Node(name="1", shape_key="a"), Node(name="2", shape_key="b")))
    with pytest.raises(ValueError, match=message):
        write_step(tmp_path / "a.step", root, shapes, names, time_stamp=STAMP)


def test_unused_shapes_are_left_out(tmp_path: Path) -> None:
    """Shapes that no leaf names are not written."""
    root = Node(name="r", children=(Node(name="1", shape_key="a"),))
    shapes, names = {"a": _box(1.0), "b": _box(2.0)}, {"a": "A", "b": "B"}
    write_step(tmp_path / "a.step", root, shapes, names, time_stamp=STAMP)
    assert step_faults((tmp_path / "a.step").read_text(encoding="ascii"), root, names) == []


def test_sample_is_three_levels_deep() -> None:
    """The sample has leaves under run and wall, at placements turned at each level."""
    leaves = list(placed_leaves(sample().root))
    assert len(leaves) == 13
    assert {len(leaf.path) for leaf in leaves} == {2, 3}
