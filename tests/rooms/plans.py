"""Plans for these tests, as text, and how they are read."""

from __future__ import annotations

from pathlib import Path

from model3d.rooms import CheckedPlan
from model3d.rooms.read_plan import plan_of
from model3d.sources import Fault, FaultyFile

FILE = Path("plan.yaml")

GOOD = """\
version: 1
family: a-square
room:
  corners: [[0, 0], [4000, 0], [4000, 3000], [1500, 3000], [1500, 5000], [0, 5000]]
  islands:
    - {id: column, corners: [[2500, 1000], [2500, 1400], [2900, 1400], [2900, 1000]]}
openings:
  - {id: door, kind: door, wall: w1, at: 600, width: 800, height: 2000, casing: {width: 60, depth: 15}}
  - {id: window, kind: window, wall: w2, at: 900, width: 1200, sill: 900, height: 1200}
obstacles:
  - {id: riser, kind: pipe, wall: w3, at: 400, off: 30, diameter: 22}
  - {id: feed, kind: pipe, wall: w3, up: 60, off: 40, diameter: 15, from: 100, to: 900}
  - {id: tail, kind: pipe-tail, wall: w6, at: 100, off: 60, diameter: 15, height: 120}
  - {id: socket, kind: socket-outlet, wall: w6, at: 1500, up: 450}
  - {id: duct, kind: trunking, wall: w4, from: 200, to: 1800, up: 300, height: 40, depth: 25}
  - {id: chest, kind: box, floor: [3000, 2000], turn: 30, width: 600, depth: 300, height: 500}
  - {id: plinth, kind: box, wall: w6, at: 3000, off: 10, width: 300, depth: 100, height: 80}
  - {id: shelf, kind: shelf, wall: w5, at: 200, width: 600, depth: 250, up: 500}
water: {flow: 60, return: 50}
install: 20
frost: 3
runs:
  - id: A
    start: {beside: door, side: left}
    end: {wall: w4, at: 1000}
    joints: [{corner: c2, use: link}, {wall: w2, at: 1600, use: coupler}]
    cut_lengths: [{wall: w3, piece: 1, length: 2 m}]
  - {id: B, start: w6, end: w5, direction: against-walls, end_fitting: turn-back}
  - {id: C, island: column, start: w1, end: w3}
dry_pieces:
  - {id: plain, wall: w4, from: 1200, to: 1900}
heat: {room: 21, loss: 1200, vulnerable: true, valve_kv: 0.5}
cutting: {kerf: 2.4, end_trim: 8, worth_keeping: 400, off_cuts: [{length: 1240, count: 2}, {length: 700, dry: true}]}
fixing:
  - {wall: w1, kind: masonry}
  - {wall: w2, kind: studs, spacing: 400, first: 120, width: 45}
in_line: {off_corner: 350, off_socket: 120, off_opening: 100, off_pipe: 90}
"""


def find_family(name: str, relative_to: Path) -> Path:
    """The families these tests know: one."""
    if name != "a-square":
        raise LookupError(f"there is no family '{name}'; did you mean 'a-square'?")
    return relative_to / f"{name}.yaml"


def read(text: str) -> CheckedPlan:
    """The checked plan of a text."""
    return plan_of(text, FILE, find_family=find_family)


def faults_of(text: str) -> tuple[Fault, ...]:
    """Every fault of a text, none when it is sound."""
    try:
        read(text)
    except FaultyFile as error:
        return error.faults
    return ()


def with_room(room: str, runs: str = "[]", rest: str = "") -> str:
    """A plan of one room given in the flow style."""
    return f"version: 1\nfamily: a-square\nroom: {room}\nruns: {runs}\n{rest}"
