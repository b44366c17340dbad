"""The plan a person starts from."""

from __future__ import annotations

import re
from pathlib import Path

from jsonschema import Draft202012Validator

from model3d.plans import Plan
from model3d.plans.starter import starter_plan
from model3d.rooms import CheckedPlan, Slab
from model3d.rooms.read_plan import plan_of
from model3d.sources import json_schema, source_of

FILE = Path("plan.yaml")


def checked(text: str) -> CheckedPlan:
    """The checked plan, whatever family it names."""
    return plan_of(text, FILE, find_family=lambda name, _: Path(f"{name}.yaml"))


def test_the_starter_plan_is_sound_as_it_stands() -> None:
    """The plan that ``dryfit new`` writes has no fault: a run over four walls, a door, a window, a
    socket-outlet.
    """
    plan = checked(starter_plan())
    assert plan.family_path == Path("a-square.yaml")
    assert [span.wall.id for span in plan.runs[0].spans] == ["w2", "w3", "w4", "w1"]
    assert (len(plan.room.doors), len(plan.room.windows), len(plan.room.obstacles)) == (1, 1, 1)


def test_what_the_starter_plan_offers_in_notes_is_sound_too() -> None:
    """Every entry that stands in the starter plan as a note can be used by taking its # away."""
    noted = re.compile(
        r"^(\s*)# ?(?=\s*(- \{|(joints|cut_lengths|islands|dry_pieces|end_fitting|return_fixed):))"
        r"|^# ?(?=(heat|cutting|fixing|in_line|bows|packers|floor_level|as_cut|fitted):)",
        re.M,
    )
    plan = checked(noted.sub(lambda m: m[1] or "", starter_plan()))
    assert {o.id for o in plan.room.obstacles} >= {"riser", "tail", "cable-duct", "chest", "shelf-1", "chase", "unit"}
    assert [len(w.sashes) for w in plan.room.windows] == [0, 1]
    assert [len(o.openers) for o in plan.room.obstacles if isinstance(o, Slab) and o.openers] == [1, 1]
    assert [d.id for d in plan.dry_pieces] == ["dry-1"]
    assert [r.id for r in plan.room.islands] == ["pillar"]
    assert (plan.runs[0].end_fitting, plan.runs[0].return_fixed) == ("turn-back", True)
    assert [c.length_mm for c in plan.runs[0].spans[1].cut_lengths] == [2000.0]
    assert [c.use for c in plan.runs[0].corners] == ["link", None, None]
    assert (plan.heat.loss_w, plan.heat.vulnerable, plan.cutting.off_cuts[0].count) == (900.0, True, 2)
    assert [f.kind for f in plan.fixings] == ["studs"]
    assert (plan.bows[0].off_at_mm(2100.0), plan.floor_levels[0].down_at_mm(2100.0)) == (7.0, 1003.0)
    assert ([c.mark for c in plan.as_cut], plan.fitted) == (["A-2"], ("A-1",))


def test_the_starter_plan_shows_a_room_by_its_walls() -> None:
    """The room by walls and turns in the starter plan's notes is the room by corners above it."""
    walls = next(line for line in starter_plan().split("\n") if "walls: [{" in line).replace("#", " ")
    text = re.sub(r"  corners:\n(    - .*\n)+", walls.replace("     ", " ") + "\n", starter_plan())
    assert "\n  corners:" not in text
    by_walls = checked(text).room.outer
    assert [c.at_mm for c in by_walls.corners] == [c.at_mm for c in checked(starter_plan()).room.outer.corners]


def test_the_starter_plan_shows_a_survey() -> None:
    """With the survey of its notes, the room by walls is adjusted, and its readings agree."""
    noted = starter_plan().replace("\n  #", "\n")
    walls = next(line.strip() for line in noted.split("\n") if "walls: [{" in line).replace("{}]", "{length: 3400}]")
    survey = noted[noted.index("survey: {") :].split("]}\n")[0] + "]}"
    text = re.sub(r"  corners:\n(    - .*\n)+", f"  {walls}\n  {survey}\n", starter_plan())
    report = checked(text).survey
    assert report is not None
    assert report.accepted
    assert report.redundancy == 2


def test_the_starter_plan_passes_the_schema() -> None:
    """What an editor is told of a plan agrees with the starter plan, which it completes from."""
    validator = Draft202012Validator(json_schema(Plan))
    data = plain(source_of(starter_plan(), FILE).data)
    assert list(validator.iter_errors(data)) == []
    assert not validator.is_valid({**data, "runz": []})


def plain(value: object) -> object:
    """Marked maps and lists as JSON has them."""
    if isinstance(value, dict):
        return {key: plain(inner) for key, inner in value.items()}
    return [plain(inner) for inner in value] if isinstance(value, tuple) else value
