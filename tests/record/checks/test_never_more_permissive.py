"""Taking what was written away, or being less sure of it, never opens the way to a covering."""

import re

import pytest

from tests.record.checks.ground import COVERED, SEAM, TRENCH, changed, readiness
from tests.record.checks.test_cover_as_designed import POINTS
from tests.record.checks.test_failed_passed_again import FAILED
from tests.record.checks.test_falls_the_right_way import BEND_BLUNDER, CASE
from tests.record.checks.test_no_lapsed_proof import PASSED
from tests.record.checks.test_outlet_clear_of_frost import frost
from tests.record.checks.test_packing_clears_the_weld import BOARD, LINED
from tests.record.checks.test_photo_of_every_side import WEST
from tests.record.checks.test_sealed_inside_and_out import BOTH
from tests.record.checks.test_shape_kept import SHAPE
from tests.record.checks.test_sides_filled_alike import LIFTS
from tests.record.checks.test_two_ties_and_a_check import BURIED, MARKS, THIRD, TIES

LAPSED = "\n## proof lapsed AIR-IN\n\n- at: 16:00\n- test: pour\n- cause: drilled\n"
THICK = "| foam | 2 | 13:40 | 13:50 | F-1 | M-1 | 14.0 °C | 8.6 °C |"
WRONG = {
    "backfall of one shot": BEND_BLUNDER,
    "backfall hidden by an average": CASE,
    "too flat": changed(TRENCH, ("- least fall: 1 %", "- least fall: 3 %")),
    "drain elsewhere": changed(TRENCH, ("- at station: 3\n- dis", "- at station: 2\n- dis")),
    "no check valve": changed(TRENCH, ("type: check", "type: ball")),
    "ball stuck": FAILED,
    "proof lapsed": TRENCH + PASSED + LAPSED,
    "photo after cover": TRENCH + changed(COVERED, ("at: 16:30", "at: 11:00")),
    "weld failed": changed(SEAM, ("result: passed", "result: failed")),
    "weld too late": changed(SEAM, ("- at: 07:30", "- at: 09:00")),
    "coat missing": changed(SEAM, ("| foam | 2 | 13:40", "| foam | 1 | 13:40")),
    "out of order": changed(SEAM, ("| 10:00 | 10:30 |", "| 07:40 | 07:55 |")),
    "too soon": changed(SEAM, ("| 13:05 | 13:20 |", "| 12:20 | 12:40 |")),
    "too late": changed(SEAM, ("| 1 h | 24 h |", "| 1 h | 80 min |")),
    "too thin": changed(SEAM, (f"{THICK} 35 mm", f"{THICK} 30 mm")),
    "wet steel": changed(SEAM, ("| T-1 | none | 14.0 °C", "| T-1 | none | 10.0 °C")),
    "stale batch": changed(SEAM, ("workable time: 60 min", "workable time: 30 min")),
    "side unseen": changed(SEAM, (WEST, "")),
    "valve backwards": changed(TRENCH, ("flow: inward", "flow: outward")),
    "outlet in the frost": frost("2.00 m"),
    "hole unsealed": changed(BOTH, ("sealing ring and mastic", "none")),
    "valve tied twice": BURIED + MARKS + TIES.replace(THIRD, ""),
    "board on a weld": LINED + BOARD.replace("thickness: 7 mm", "thickness: 6 mm"),
    "earth too thin": POINTS.replace("1.280 ±", "1.180 ±"),
    "earth too thick": POINTS.replace("1.280 ±", "1.580 ±"),
    "one side high": LIFTS.replace("| 97.30 m", "| 97.60 m"),
    "out of shape": SHAPE.replace("2.475", "2.460"),
    "covered wrong": changed(SEAM, (WEST, "")) + COVERED,
}
FIELD = re.compile(r"^- [a-z' -]+: (?!not recorded)(.+)$", re.MULTILINE)


def blanked(blocks):
    """Yield the blocks with one value each put as "not recorded": every field, every cell."""
    for field in FIELD.finditer(blocks):
        if not field[0].startswith(("- mends", "- because", "- at:")):
            yield blocks[: field.start(1)] + "not recorded" + blocks[field.end(1) :]
    for row in re.finditer(r"^\|(.+)\|$", blocks, re.MULTILINE):
        before = blocks[: row.start()].rstrip("\n").rsplit("\n", 1)[-1]
        if row[0].startswith("|---") or not before.startswith("|"):
            continue
        cells = list(re.finditer(r"[^|]+", row[1]))
        named = 1 if cells[0][0].strip()[:1].isdigit() else 0  # a row's own name stays
        for cell in cells[named:]:
            start = row.start(1) + cell.start()
            yield blocks[:start] + " not recorded " + blocks[row.start(1) + cell.end() :]


@pytest.mark.parametrize("blocks", WRONG.values(), ids=WRONG.keys())
def test_a_covering_that_was_held_is_held_whatever_is_not_recorded(blocks):
    assert readiness(blocks).stops
    told = list(blanked(blocks))
    assert len(told) > 10
    opened = [less for less in told if not readiness(less).stops]
    assert [_difference(blocks, less) for less in opened] == []


def _difference(blocks, less):
    old, new = blocks.splitlines(), less.splitlines()
    return next((a, b) for a, b in zip(old, new, strict=True) if a != b)


@pytest.mark.parametrize(
    "which", ["backfall of one shot", "backfall hidden by an average", "too flat"]
)
@pytest.mark.parametrize("tolerance", ["10 mm", "100 mm", "1 m"])
def test_worse_levels_open_no_way(which, tolerance):
    assert readiness(WRONG[which].replace("± 3 mm", f"± {tolerance}")).stops


@pytest.mark.parametrize("which", ["photo after cover", "weld too late", "covered wrong"])
def test_a_time_of_day_that_nobody_wrote_opens_no_way(which):
    blocks = WRONG[which]
    for line in re.findall(r"^- at: .+\n", blocks, re.MULTILINE):
        assert readiness(blocks.replace(line, "")).stops
