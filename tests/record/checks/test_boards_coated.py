"""Coats on lining boards: two on cement board, one elsewhere; common practice, no source."""

import pytest

from record.checks import boards_coated as rule
from tests.record.checks.ground import handed


def board(tag, what, coats):
    return (
        f"\n## panel {tag}\n\n- hull: A\n- face: left\n- width: 1.20 m\n- height: 2.15 m\n"
        f"- thickness: 12 mm\n- packing thickness: 90 mm\n- board: {what}\n- coats: {coats}\n"
    )


@pytest.mark.parametrize(
    ("what", "coats", "told"),
    [
        ("cement board", 2, 0),
        ("cement board", 1, 1),
        ("Cement board, 12 mm", "none", 1),
        ("plywood", 1, 0),
        ("plywood", 0, 1),
        ("none", "none", 0),
        ("cement board", "n/a, tiled", 0),
        ("not recorded", 1, 1),
        ("plywood", "not recorded", 1),
    ],
)
def test_a_board_has_the_coats_it_needs_or_is_looked_at(what, coats, told):
    found = handed(rule, board("A-L1", what, coats))
    assert len(found) == told
    for one in found:
        assert one.stops is False
        assert (one.sure == "cannot be told") is ("not recorded" in (what, coats))


def test_coats_recorded_one_by_one_count():
    each = (
        "\n## coat applied A-L1\n\n| layer | coat | started | lot |\n|---|---|---|---|\n"
        "| epoxy | 1 | 09:00 | E-1 |\n| epoxy | 2 | 15:00 | E-1 |\n"
    )
    assert handed(rule, board("A-L1", "cement board", "not recorded"), each) == []


def test_boards_that_lack_alike_are_one_finding():
    [found] = handed(rule, *(board(f"A-L{n}", "cement board", 1) for n in range(1, 9)))
    assert found.says.startswith("A-L1, A-L2, A-L3, A-L4, A-L5, A-L6 and 2 more: cement board")
    assert len(found.entries) == 8
    assert found.about == "A"
