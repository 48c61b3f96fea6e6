"""The drawing of a panel that follows the curve of a round hull."""

from manual.drawings.panel_elevation import panel_elevation
from manual.plans.elevations import panel_drawing
from record.answers import behind
from tests.record.answers.shelter import run
from tests.record.place.test_round_hulls import board, seen


def test_an_unrolled_panel_says_so_and_draws_nothing_as_certain():
    pipe = run(
        stations=[
            ("1", "102.3", "200.15", "51.5", "10 mm"),
            ("2", "103.0", "199.9", "52.2", "10 mm"),
        ]
    )
    drawing = panel_elevation(panel_drawing(behind(seen(board(), pipe), "P-1")))
    assert "unrolled along the curve" in drawing.svg
    assert "certainly there" not in drawing.svg and "may reach this far" in drawing.svg
