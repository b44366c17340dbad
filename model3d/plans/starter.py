"""The plan that a person starts from: commented, and sound as it stands."""

from __future__ import annotations

_STARTER = """\
# A run plan: the room, what is in the way, and the run of heated skirting round it.
#
# Lengths are millimetres; other units are written out: 3.2 m, 320 cm, 10 ft 6 in.
# Temperatures are degrees Celsius. What begins with # is a note.
# For completion while you type:  dryfit schema plan > plan.schema.json  and, as the first line of this file,
#   "# yaml-language-server: $schema=plan.schema.json"

version: 1
name: Back bedroom
family: a-square            # a packaged family, or the path of a family file of your own

room:
  # The corners as you walk round with the room on your left: c1, c2, c3 and so on.
  # Wall w1 goes from c1 to c2, w2 from c2 to c3; the last wall goes back to c1.
  corners:
    - [0, 0]
    - [4200, 0]
    - [4200, 3400]
    - [0, 3400]
  height: 2400
  # A room can also be given by its walls: the length of each, and by how many degrees you turn at its end
  # (90 at a square internal corner, -90 at a square external one). Of the last wall both may be left out.
  #   walls: [{length: 4200, turn: 90}, {length: 3400, turn: 90}, {length: 4200, turn: 90}, {}]
  # Measured with diagonals or corner angles, the readings check each other: the turns are then only a sketch
  # (90 when left out), the room is adjusted, and a reading that is wrong is named. sigma: two readings in three are
  # that near.
  #   survey: {length_sigma: 2, angle_sigma: 0.3, angles: [{corner: c1, interior: 90}],
  #            diagonals: [{from: c1, to: c3, length: 5403}, {from: c2, to: c4, length: 5404}]}
  # A free-standing column is an island. Its corners go round clockwise; its walls are pillar.w1 and so on.
  # islands:
  #   - {id: pillar, corners: [[3000, 600], [3000, 900], [3300, 900], [3300, 600]]}

# On a wall, 'at' is the distance from the wall's first corner: the corner on your right as you face the wall.
openings:
  # hinge: the side of the hinges as you face the wall; swing: in when the door opens into this room.
  - {id: door, kind: door, wall: w1, at: 3150, width: 800, height: 2000, hinge: left, swing: in,
     casing: {width: 60, depth: 15}}
  - {id: window, kind: window, wall: w3, at: 1500, width: 1200, sill: 900, height: 1200, sill_depth: 150}
  # A casement that opens into the room, from its sill up; a pair has 'hinge: both'.
  # - {id: french, kind: window, wall: w4, at: 300, width: 800, sill: 160, swing: in, hinge: left, opens: 90}

# 'up' is the height above the floor, 'off' the distance away from the wall.
obstacles:
  - {id: socket-1, kind: socket-outlet, wall: w2, at: 1900, up: 450}
  # Take the # away from what your room has:
  # - {id: riser, kind: pipe, wall: w1, at: 4140, off: 40, diameter: 22}
  # - {id: tail, kind: pipe-tail, wall: w2, at: 60, off: 90, diameter: 15, height: 120}
  # - {id: cable-duct, kind: trunking, wall: w4, from: 400, to: 2800, up: 600, height: 40, depth: 25}
  # - {id: chest, kind: box, floor: [1800, 1400], width: 900, depth: 450, height: 800}
  # - {id: shelf-1, kind: shelf, wall: w4, at: 800, width: 900, depth: 250, up: 1200}
  # Chased into the wall, 'off' is negative: brackets stay off it.
  # - {id: chase, kind: pipe, wall: w3, at: 700, off: -25, diameter: 15}
  # What opens: 'out' is how far a drawer pulls out; 'from' and 'to' would be along the front, from its right.
  # - {id: unit, kind: box, wall: w4, at: 1700, width: 900, depth: 450, height: 800, drawers: [{up: 500, out: 380}]}
  # - {id: locker, kind: box, wall: w4, at: 2700, width: 500, depth: 450, height: 1800, doors: [{hinge: left}]}

water: {flow: 55, return: 45}
install: 18                 # temperature of the room while it is fitted
frost: 5                    # temperature at the frost set-back, the coldest the metal gets
finish: {floor: oak, walls: ivory, skirting: white}

runs:
  # A run goes from its valve end to its return end. 'with-walls' keeps the room on the left on the way.
  - id: A
    start: {wall: w2, at: 200}
    end: {wall: w1, at: 2900}
    direction: with-walls
    # end_fitting: turn-back                             # the water comes back to the valve end
    # return_fixed: true                                 # the pipework at the return end holds it
    # joints: [{corner: c3, use: link}, {wall: w4, at: 1700, use: link}]
    # cut_lengths: [{wall: w3, piece: 1, length: 2000}]  # pieces count from 1 within a wall, in the run's order

# Unheated skirting of the same shape:
# dry_pieces:
#   - {id: dry-1, wall: w1, from: 4020, to: 4100}

# Heat: the room when heated (C), its heat loss (W), whether children, the old or the ill live here.
# heat: {room: 20, loss: 900, vulnerable: true}

# The saw's cut, what each end of a bar is trimmed by, and off-cuts in hand:
# cutting: {kerf: 3, end_trim: 5, off_cuts: [{length: 1240, count: 2}]}

# What brackets are fixed to. Masonry unless said; studs by the middle of one and their spacing.
# fixing:
#   - {wall: w3, kind: studs, first: 300, spacing: 400}

# Walls that bow: [at, off] by a straightedge from corner to corner, off the line into the room (- where hollow).
# bows:
#   - {wall: w3, readings: [[1000, 4], [2100, 7], [3200, 3]]}
# packers: {step: 0.5, most: 10}

# The floor: [at, down] below a level line that is the same all round.
# floor_level:
#   - {wall: w3, readings: [[0, 1000], [4200, 1006]]}

# Pieces that are cut already, and those that are up:
# as_cut: {A-2: 4096}
# fitted: [A-1]

# How far the middle of a joint within a wall stays from things, where its place is not asked for.
# in_line: {off_corner: 300, off_socket: 150, off_opening: 150, off_pipe: 100}
"""


def starter_plan() -> str:
    """The text of a plan for ``dryfit new``: an invented room with one run, sound as it stands."""
    return _STARTER
