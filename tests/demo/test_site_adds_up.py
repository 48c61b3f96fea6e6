"""The demo site adds up: its sheets' numbers against each other, by school arithmetic.

Nothing here uses the program's own calculations; the sheets are read, and the rest is Pythagoras,
sums and areas. The site is invented, so the numbers prove only that the demo agrees with itself.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from record.facts.values import Level, Value
from record.sheets import Draft, read_sheet
from record.units import Quantity

SHEETS = Path(__file__).parents[2] / "demo" / "sheets"
WALL_M = 0.004  # of the air pipe: (160 - 152) / 2 mm


@cache
def drafts() -> tuple[Draft, ...]:
    """Everything the sheets say, in the order they are posted."""
    names = [
        line.split()[0]
        for line in (SHEETS / "written.txt").read_text("utf-8").splitlines()
        if line.strip() and not line.startswith("#")
    ]
    return tuple(
        draft for name in names for draft in read_sheet(name, (SHEETS / name).read_bytes()).drafts
    )


def said(kind: str, about: str) -> Iterator[Draft]:
    return (draft for draft in drafts() if draft.kind.word == kind and draft.about == about)


def number(value: Value | None) -> float:
    """Return a measured value in SI units."""
    if isinstance(value, Level):
        value = value.height
    assert isinstance(value, Quantity), value
    return float(value.si)


def last(kind: str, about: str, name: str) -> float:
    """Return the newest number said of a field; the sheets mend forward only."""
    return number([d.body[name] for d in said(kind, about) if name in d.body][-1])


def place(station: str) -> tuple[float, float]:
    return last("station", station, "x"), last("station", station, "y")


def invert(station: str) -> float:
    """Return the newest invert; a crown is taken down by the inside of the pipe and one wall."""
    levels = [d.body["level"] for d in said("station", station) if "level" in d.body]
    newest = levels[-1]
    assert isinstance(newest, Level)
    return number(newest) - (0.152 + WALL_M if newest.part == "crown" else 0.0)


def top(run: str) -> float:
    """Return the level of the top of a run's terminal, as its outlet says it."""
    outlet = next(str(d.body["outlet"]) for d in said("run", run) if "outlet" in d.body)
    return float(re.findall(r"top at ([0-9.]+) m", outlet)[0])


def distance(one: tuple[float, float], other: tuple[float, float]) -> float:
    return math.hypot(one[0] - other[0], one[1] - other[1])


def ties() -> list[tuple[str, str, str, float, bool]]:
    """Return run, station, landmark, distance of every tie, and whether it mends an earlier one."""
    return [
        (
            d.about,
            str(d.body["point"]),
            str(d.body["landmark"]),
            number(d.body["distance"]),
            bool(d.mends),
        )
        for d in drafts()
        if d.kind.word == "position tied" and d.about not in ("DP-1", "SH-1")
    ]


def landmark(tag: str) -> tuple[float, float]:
    return last("landmark", tag, "x"), last("landmark", tag, "y")


def test_the_bend_lies_where_the_tapes_meet() -> None:
    """Bend (24, 6). H2 (22, 20): √(2² + 14²) = √200 = 14.142. W1 (30.5, 14): √(6.5² + 8²) =
    √106.25 = 10.308. H1 (10, 20): √(14² + 14²) = √392 = 19.799. Later K1 (28, 9): √(4² + 3²) =
    5.000, which by tape is √(6² + 11²) = 12.530 from H2 and √(23.8² + 5.4²) = 24.405 from G1."""
    worked = {"H2": 14.142, "W1": 10.308, "H1": 19.799, "K1": 5.000}
    taped = {mark: far for run, at, mark, far, _ in ties() if (run, at) == ("AIR-IN", "2")}
    assert taped == pytest.approx(worked, abs=0.0005)
    for mark, far in worked.items():
        assert distance(place("AIR-IN/2"), landmark(mark)) == pytest.approx(far, abs=0.005)


def test_the_way_out_is_tied_to_its_lid() -> None:
    """From (10.619, 11.35): H1 √(0.619² + 8.65²) = 8.672, H2 √(11.381² + 8.65²) = 14.295, G1
    (4.20, 3.60) √(6.419² + 7.75²) = 10.063."""
    taped = {
        d.body["landmark"]: float(d.body["distance"].si)
        for d in drafts()
        if d.kind.word == "position tied" and d.about == "SH-1"
    }
    assert taped == pytest.approx({"H1": 8.672, "H2": 14.295, "G1": 10.063}, abs=0.0005)
    for mark, far in taped.items():
        assert distance((10.619, 11.35), landmark(mark)) == pytest.approx(far, abs=0.005)


def test_every_tie_that_stands_meets_its_station_within_five_millimetres() -> None:
    standing = {(run, at, mark): far for run, at, mark, far, _ in ties()}
    assert len(standing) == 13
    for (run, at, mark), far in standing.items():
        assert distance(place(f"{run}/{at}"), landmark(mark)) == pytest.approx(far, abs=0.005)


def test_the_mistyped_tie_swaps_two_digits_and_misses_by_half_a_metre() -> None:
    """10.803 for 10.308: 10.803 - 10.308 = 0.495 m."""
    first = next(
        far for run, at, mark, far, _ in ties() if (run, at, mark) == ("AIR-IN", "2", "W1")
    )
    mended = [far for *_, mark, far, mends in ties() if mends and mark == "W1"]
    assert sorted(str(first)) == sorted(str(mended[0]))
    assert first - mended[0] == pytest.approx(0.495)


def test_the_dip_pipe_is_tied_to_house_and_gate() -> None:
    """DP-1 (13, 8.8). H1: √(3² + 11.2²) = √134.44 = 11.595. G1 (4.2, 3.6): √(8.8² + 5.2²) =
    √104.48 = 10.222."""
    taped = {d.body["landmark"]: number(d.body["distance"]) for d in said("position tied", "DP-1")}
    assert taped == pytest.approx({"H1": 11.595, "G1": 10.222}, abs=0.0005)


def level_run(first_word: str) -> dict[str, dict[str, float]]:
    """Return the readings of the level run that shot ``first_word``, by point."""
    runs: list[dict[str, dict[str, float]]] = []
    for draft in said("levelled", "larch-end"):
        point = str(draft.body["point"])
        if point == "BM1":
            runs.append({})
        runs[-1][point] = {
            name: number(draft.body[name])
            for name in ("backsight", "intermediate", "foresight", "distance")
            if isinstance(draft.body[name], Quantity)
        }
    return next(run for run in runs if any(point.startswith(first_word) for point in run))


def test_the_level_run_of_day_three_closes_two_millimetres_high() -> None:
    """HI = 50.000 + 1.432 = 51.432. On BM2: 51.432 - 1.018 = 50.414, known 50.412: +2 mm. Over
    28 + 32 = 60 m, third order allows 12 mm × √0.060 km = 2.9 mm."""
    run = level_run("AIR-IN")
    height = last("benchmark", "BM1", "level") + run["BM1"]["backsight"]
    assert height == pytest.approx(51.432)
    miss_mm = 1000 * (height - run["BM2"]["foresight"] - last("benchmark", "BM2", "level"))
    way_km = (run["BM1"]["distance"] + run["BM2"]["distance"]) / 1000
    assert miss_mm == pytest.approx(2.0)
    assert miss_mm < 12 * math.sqrt(way_km) < 3.0


def test_the_crown_shots_are_the_inverts_and_the_pipe_above_them() -> None:
    """51.432 - 3.426 = 48.006; - 3.526 = 47.906; - 3.678 = 47.754. Less 0.152 + 0.004 = 0.156:
    47.850, 47.750, 47.598."""
    run = level_run("AIR-IN")
    height = 50.000 + run["BM1"]["backsight"]
    for station, worked in (("1", 47.850), ("2", 47.750), ("3", 47.598)):
        crown = height - run[f"AIR-IN {station} crown"]["intermediate"]
        assert crown - 0.156 == pytest.approx(worked)
        assert invert(f"AIR-IN/{station}") == pytest.approx(worked)


def test_the_fresh_air_pipe_falls_two_percent_toward_the_hull() -> None:
    """(27, 2) to (24, 6): 3-4-5. 47.850 - 47.750 = 0.100 on 5.00 m; 47.750 - 47.598 = 0.152 on
    7.60 m. Both 2.000 %."""
    stations = [f"AIR-IN/{n}" for n in (1, 2, 3)]
    for high, low, length in zip(stations, stations[1:], (5.00, 7.60), strict=False):
        assert distance(place(high), place(low)) == pytest.approx(length)
        assert (invert(high) - invert(low)) / length == pytest.approx(0.02)


def test_the_crown_written_as_invert_makes_a_backfall_of_56_millimetres() -> None:
    """47.906 - 47.850 = 0.056 up on 5.00 m: 1.12 %."""
    first = next(iter(said("station", "AIR-IN/2"))).body["level"]
    assert isinstance(first, Level)
    assert first.part == "invert"
    rise = number(first) - invert("AIR-IN/1")
    assert (rise, rise / 5.00) == pytest.approx((0.056, 0.0112))


@pytest.mark.parametrize(
    ("run", "length", "fall"),
    [("AIR-OUT", 5.00, 0.02), ("D-1", 10.00, 0.025), ("PD-1", 10.00, 0.025)],
)
def test_the_other_pipes_fall_outward(run: str, length: float, fall: float) -> None:
    """AIR-OUT (11, 12.3) to (8, 16.3): 3-4-5, 0.100 on 5. D-1 (16.4, 4.4) to (22.4, -3.6):
    6-8-10, 47.400 - 47.150 = 0.250 on 10. PD-1 the same, 0.3 south: 0.250 on 10."""
    assert distance(place(f"{run}/1"), place(f"{run}/2")) == pytest.approx(length)
    assert (invert(f"{run}/1") - invert(f"{run}/2")) / length == pytest.approx(fall)


def test_the_two_drains_lie_eighteen_centimetres_apart() -> None:
    """Both run (6, -8)/10; across it (0.8, 0.6). PD-1 starts 0.3 south of D-1: 0.3 × 0.6 = 0.18."""
    (x1, y1), (x2, y2) = place("D-1/1"), place("PD-1/1")
    assert abs((x2 - x1) * 0.8 + (y2 - y1) * 0.6) == pytest.approx(0.18)


def test_air_comes_in_and_goes_out_far_apart() -> None:
    """(27, 2) to (8, 16.3): √(19² + 14.3²) = √565.49 = 23.78."""
    assert distance(place("AIR-IN/1"), place("AIR-OUT/2")) == pytest.approx(23.78, abs=0.005)


def test_pipes_enter_the_plant_hull_at_the_chainage_that_is_written() -> None:
    """Near end y 8.40, looking south: 8.40 - 6.00 = 2.40; - 4.40 = 4.00; - 4.10 = 4.30."""
    for station, near in (("AIR-IN/3", 2.40), ("D-1/1", 4.00), ("PD-1/1", 4.30)):
        x, y = place(station)
        assert x == last("hull", "B", "x")
        assert last("hull", "B", "y") - y == pytest.approx(near)


def test_the_link_joins_the_two_openings() -> None:
    """A's left wall is y 10, x = 20 - a: 4.40 to 5.20 is x 15.60 to 14.80. B's near wall is y 8.40,
    x = 16.40 - l: 0.80 to 1.60 is x 15.60 to 14.80. 10.00 - 8.40 = 1.60 long."""
    assert last("hull", "A", "x") - last("opening", "OP-2", "from_near") == pytest.approx(15.60)
    assert last("hull", "B", "x") - last("opening", "OP-3", "from_left") == pytest.approx(15.60)
    assert last("hull", "LK", "x") == 15.60
    length = last("hull", "A", "y") - last("hull", "B", "y")
    assert last("hull", "LK", "inside_length") == pytest.approx(length)


def test_a_seam_of_the_link_is_as_long_as_the_outside_of_the_link() -> None:
    """2 × (0.80 + 0.012 + 1.90 + 0.012) = 5.448. Of one side, 1.912, a window shows 0.60: 1.31."""
    for seam in ("SM-1", "SM-2"):
        sides = last("seam", seam, "width") + last("seam", seam, "height")
        assert 2 * sides == pytest.approx(5.448)
        assert last("seam", seam, "length") == pytest.approx(5.448)
    assert last("seam", "SM-2", "height") - 0.60 == pytest.approx(1.31, abs=0.005)


@pytest.mark.parametrize(("hull", "level"), [("A", 46.460), ("B", 46.378)])
def test_a_hull_floats_in_the_open_pit_where_its_mass_is_displaced(hull: str, level: float) -> None:
    """A: 9.012 × 2.712 = 24.44 m²; 6500 / 24440 = 0.266; bottom 46.194; 46.460.
    B: 4.812 × 2.412 = 11.607 m²; 3300 / 11607 = 0.284; bottom 46.094; 46.378."""
    plate = last("hull", hull, "steel_thickness")
    plan = math.prod(last("hull", hull, f"inside_{way}") + 2 * plate for way in ("length", "width"))
    draught = last("hull", hull, "mass") / (1000 * plan)
    floats = last("hull", hull, "floor_level") - plate + draught
    assert floats == pytest.approx(level, abs=0.0005)
    assert last("hull", hull, "floats_in_open_pit_at") == pytest.approx(level)


@pytest.mark.parametrize(("hull", "worked"), [("A", 1.294), ("B", 1.394)])
def test_the_cover_measured_is_the_ground_less_the_steel_top(hull: str, worked: float) -> None:
    """A: 50.00 - (46.20 + 2.50 + 0.006) = 1.294; five points (1.300 + 1.290 + 1.280 + 1.310 +
    1.290) / 5 = 1.294. B: 49.70 - (46.10 + 2.20 + 0.006) = 1.394; two points 1.395."""
    height = last("hull", hull, "inside_height") + last("hull", hull, "steel_thickness")
    above = last("hull", hull, "ground_level") - last("hull", hull, "floor_level") - height
    raked = [d for d in said("cover measured", hull) if d.body["surface"] == "topsoil, raked"]
    points = [number(d.body["cover"]) for d in raked]  # of the last day of the week
    assert above == pytest.approx(worked)
    assert sum(points) / len(points) == pytest.approx(worked, abs=0.002)
    assert min(points) > last("hull", hull, "design_cover")


def test_the_sand_fills_the_shaft() -> None:
    """0.75 × 0.75 × (49.65 - 46.95) = 1.519 m³. The lid lies 50.00 - 49.65 = 0.35 below grade."""
    section = last("way out", "SH-1", "section_along") * last("way out", "SH-1", "section_across")
    low, high = last("way out", "SH-1", "fill_from"), last("way out", "SH-1", "fill_to")
    assert section * (high - low) == pytest.approx(1.519, abs=0.0005)
    assert last("filled", "SH-1", "volume") == pytest.approx(1.519)
    assert last("hull", "A", "ground_level") - high == pytest.approx(0.35)
    assert last("way out", "SH-1", "top_below_grade") == pytest.approx(0.35)


def test_the_heap_stays_short_of_the_line_people_stand_behind() -> None:
    """A wedge across the room, run × height / 2 × 2.70 m, holds the sand: 1.29 × 0.87 / 2 × 2.70 =
    1.515 for 1.519 dry; 1.47 × 0.99 / 2 × 2.70 = 1.965 for 1.519 × 1.3 = 1.975 damp."""
    words = " ".join(str(d.body["text"]) for d in said("remark", "SH-1"))
    run, high, damp_run, damp_high = map(float, re.findall(r"[01]\.[0-9]{2}", words))
    sand, across = last("filled", "SH-1", "volume"), last("hull", "A", "inside_width")
    assert run * high / 2 * across == pytest.approx(sand, abs=0.02)
    assert damp_run * damp_high / 2 * across == pytest.approx(sand * 1.3, abs=0.02)
    clear = next(str(d.body["keep_clear"]) for d in said("way out", "SH-1"))
    assert float(re.findall(r"[0-9.]+ m$", clear)[0].removesuffix(" m")) > damp_run


def test_the_floor_store_holds_what_is_written() -> None:
    """1.60 × 0.60 × 0.31 = 0.2976 m³, 298 L. 46.20 + 0.31 + 0.04 of boards = 46.55."""
    room = math.prod(last("store", "S-1", way) for way in ("along", "across", "height"))
    assert last("store", "S-1", "volume") == pytest.approx(room, abs=0.0005)
    top = last("store", "S-1", "bottom") + last("store", "S-1", "height")
    boards = last("panel", "A-U2", "thickness")
    assert top + boards == pytest.approx(last("hull", "A", "walking_floor"))


@pytest.mark.parametrize(
    ("wall", "across", "height", "openings"),
    [
        ("A-L", 9.00, 2.15, 0.80 * 1.60),  # the link, above the walking floor 46.55 to 48.15
        ("A-R", 9.00, 2.15, 0.0),
        ("A-N", 2.70, 2.15, 0.80 * 1.90),  # the door
        ("A-F", 2.70, 2.15, 0.0),
        ("A-C", 9.00, 2.70, 0.0),
        ("A-U", 9.00, 2.70, 0.0),
        ("B-L", 4.80, 2.20, 0.0),
        ("B-R", 4.80, 2.20, 0.0),
        ("B-N", 2.40, 2.20, 0.80 * 1.90),  # the link
        ("B-F", 2.40, 2.20, 0.0),
        ("B-C", 4.80, 2.40, 0.0),
        ("B-U", 4.80, 2.40, 0.0),
    ],
)
def test_the_boards_cover_a_face_and_leave_its_openings(
    wall: str, across: float, height: float, openings: float
) -> None:
    """The face's width × height less its openings is the sum of its boards, none counted twice."""
    boards = {d.about for d in drafts() if d.kind.word == "panel" and d.about.startswith(wall)}
    area = sum(last("panel", tag, "width") * last("panel", tag, "height") for tag in boards)
    assert area == pytest.approx(across * height - openings)


def test_the_wall_paint_is_counted_over_the_bare_walls() -> None:
    """(9.00 + 2.70) × 2 × 2.15 = 50.31; less door 1.52, link 1.28, hatch 0.45: 47.06 m².
    47.1 m² × 0.15 mm / (0.98 × 0.85) = 8.48 L a coat, so 8.5. The spoiled patch: 4.20 × 2.15 =
    9.03 m², 1.6 L; done again it is 1.7 L more. 8.5 + 8.5 + 1.7 = 18.7, of which the coats 2 of
    Monday are 6.9 and of Tuesday 1.6."""
    used = [number(d.body["used"]) * 1000 for d in said("coat applied", "RM-A")]
    first, again, second = used[:4], used[4], used[5:]
    assert sum(first) == pytest.approx(47.06 * 0.15 / (0.98 * 0.85), abs=0.05)
    assert again == pytest.approx(4.20 * 2.15 * 0.15 / (0.98 * 0.85), abs=0.1)
    assert sum(second) == pytest.approx(sum(first), abs=0.05)


def test_what_was_delivered_was_fitted_or_returned() -> None:
    """Air pipe 24.00 = 12.60 + 5.00 + 2.60 + 3.05 + 0.75: 50.45 - 47.85 = 2.60 up at the intake,
    50.85 - 47.80 = 3.05 at the discharge. Kits 12 = 9 mixed + 3. Ball valves 3 = 2 + 1."""
    came = {str(d.body["what"]): str(d.body["amount"]) for d in said("delivered", "larch-end")}
    back = {str(d.body["what"]): str(d.body["amount"]) for d in said("returned", "larch-end")}
    laid = last("run", "AIR-IN", "pipe_length") + last("run", "AIR-OUT", "pipe_length")
    risers = top("AIR-IN") - invert("AIR-IN/1") + top("AIR-OUT") - invert("AIR-OUT/2")
    offcut = float(back["air pipe 160"].removesuffix(" m"))
    assert float(came["air pipe 160"].removesuffix(" m")) == pytest.approx(laid + risers + offcut)
    mixed = {d.about for d in drafts() if d.kind.word == "batch"}
    assert int(came["epoxy kits, 2.5 L"]) == len(mixed) + int(back["epoxy kits, 2.5 L"])
    balls = {d.about for d in drafts() if d.kind.word == "valve" and d.body.get("type") == "ball"}
    assert int(came["ball valves 40"]) == len(balls) + int(back["ball valve 40"])


def test_the_spoiled_batch_was_worked_fifteen_minutes_too_long() -> None:
    """Mixed 13:05 and 30 min is 13:35; last used 13:50. The others ended inside their time."""

    def minutes(clock: Value | None) -> int:
        hours, rest = str(clock).split(":")
        return int(hours) * 60 + int(rest)

    over = {
        d.about: minutes(d.body["last_used"]) - minutes(d.body["mixed"]) - allowed
        for d in drafts()
        if d.kind.word == "batch"
        for allowed in [number(d.body["workable_time"]) / 60]
    }
    assert over.pop("M-3") == pytest.approx(15)
    assert len(over) == 8
    assert max(over.values()) <= 0


def test_the_drill_hit_the_zone_and_missed_the_box_and_the_steel() -> None:
    """3.45 along: x = 20 - 3.45 = 16.55. Zone 2.40 to 3.60. Box ends 2.75 + 0.50 = 3.25, 0.20
    short of it. Lining 12 + 90 = 102 mm, the hole 40: 62 mm left."""
    at, deep = (
        last("worked by others", "A-L3", "from_near"),
        last("worked by others", "A-L3", "depth"),
    )
    zone = last("reserved zone", "R-1", "from_near")
    assert zone < at < zone + last("reserved zone", "R-1", "width")
    box_end = last("store", "S-3", "from_near") + last("store", "S-3", "along")
    assert at - box_end == pytest.approx(0.20)
    lining = last("panel", "A-L3", "thickness") + last("panel", "A-L3", "packing_thickness")
    assert lining - deep == pytest.approx(0.062)


def test_the_drive_comes_nearer_than_ten_feet() -> None:
    """Edge at x 30.00, intake at 27.00: 3.00 m. By the contractor's tape 9 ft 10-1/8 in: 118.125 ×
    0.0254 = 3.0004 m. Ten feet are 3.048 m."""
    told = next(str(d.body["what"]) for d in said("worked by others", "AIR-IN"))
    edge, feet, inches, eighths = map(
        int, re.findall(r"x ([0-9]+)\.00, by tape ([0-9]+)' ([0-9]+)-([0-9])/8\"", told)[0]
    )
    taped = ((feet * 12) + inches + eighths / 8) * 0.0254
    assert edge - place("AIR-IN/1")[0] == pytest.approx(3.00)
    assert taped == pytest.approx(3.00, abs=0.002)
    assert taped < 10 * 0.3048


def test_the_post_hole_comes_down_on_the_drain() -> None:
    """
    D-1 falls from (16.40, 4.40) to (22.40, -3.60), 10 m, so it runs 0.6 east and 0.8 south a metre.

    The hole at (20.4, -0.9) is 4.0 x 0.6 + 5.3 x 0.8 = 6.64 m along it and 4.0 x 0.8 - 5.3 x 0.6
    = 0.02 m beside it. The ground there is 49.70 - 6.64 x 0.225 = 48.206, the crown, 52 mm above
    the invert, 47.400 - 6.64 x 0.025 + 0.052 = 47.286: the spade stops 0.92 m down.
    """
    (x, y), (end_x, end_y) = place("D-1/1"), place("D-1/2")
    hole = next(str(d.body["extent"]) for d in said("uncovered", "FILL-TR"))
    at_x, at_y = map(float, re.findall(r"x ([0-9.]+), y (-[0-9.]+)", hole)[0])
    east, north = (end_x - x) / 10, (end_y - y) / 10
    along = (at_x - x) * east + (at_y - y) * north
    assert abs((at_x - x) * north - (at_y - y) * east) < 0.027  # half of the pipe
    grounds = [last("station", f"D-1/{key}", "ground") for key in (1, 2)]
    ground = grounds[0] + (grounds[1] - grounds[0]) * along / 10
    crown = invert("D-1/1") + (invert("D-1/2") - invert("D-1/1")) * along / 10 + 0.052
    dug = last("pass broken", "GP-1", "depth")
    assert ground - crown == pytest.approx(dug, abs=0.005)
    words = str(next(said("pass broken", "GP-1")).body["what"])
    assert f"x {math.floor(at_x)}, y {math.floor(at_y)};" in words


def test_the_water_in_the_sag_is_what_the_pour_lost() -> None:
    """Lost 4.8 − 3.6 = 1.2 L. Water over 2 m, 20 mm deep in the middle, where two straight
    lengths meet: at u of the half, 20 (1 − u) mm. In a pipe of 152 mm a depth h fills the segment
    r² arccos(1 − h/r) − (r − h) √(2rh − h²); by Simpson over ten strips of the half: 1.14 L."""
    outs = [str(d.body["reading"]) for d in said("tested", "AIR-IN") if "L out" in str(d.body)]
    first, later = (float(re.findall(r"([0-9.]+) L out", words)[0]) for words in outs)
    assert first - later == pytest.approx(1.2)

    def segment(depth: float, r: float = 0.076) -> float:
        return r * r * math.acos(1 - depth / r) - (r - depth) * math.sqrt(2 * r * depth - depth**2)

    areas = [segment(0.020 * (1 - n / 10)) for n in range(11)]
    weights = [1, 4, 2, 4, 2, 4, 2, 4, 2, 4, 1]
    half = sum(a * w for a, w in zip(areas, weights, strict=True)) / 30
    assert 2 * half * 1000 == pytest.approx(1.14, abs=0.02)


def test_the_groundwater_of_a_wet_spring_stays_under_the_alarm() -> None:
    """47.10 − 45.95 = 1.15 up, 47.95 − 47.10 = 0.85 under, as the technician wrote."""
    levels = [
        float(str(d.body["reading"]).removesuffix(" m")) for d in said("reading taken", "DP-1")
    ]
    assert levels[-1] - levels[0] == pytest.approx(1.15)
    assert last("dip pipe", "DP-1", "alarm_level") - levels[-1] == pytest.approx(0.85)
