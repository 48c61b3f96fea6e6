"""Places as somebody types them: grids west of the peg, feet, tapes; refusals in words."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from manual.cli import main
from record.log import Log
from tests.record.records import SITE, post_text

Told = tuple[int, str, str]
GROUND = SITE + (
    "\n## landmark H1\n\n- what: corner\n- x: 0.00 m\n- y: 0.00 m\n"
    "\n## landmark H2\n\n- what: corner\n- x: 10.00 m\n- y: 0.00 m\n"
    "\n## run W-1\n\n- carries: drinking water\n- outside diameter: 50 mm\n"
    "- inside diameter: 40 mm\n- insulation: none\n\n"
    "| station | x [m] | y [m] | centre [m] | ground [m] | how |\n|---|---|---|---|---|---|\n"
    "| 1 | -6.00 | -4.80 | 48.000 | 50.00 | tape |\n| 2 | 13.20 | -4.80 | 48.000 | 50.00 | tape |\n"
)


@pytest.fixture
def asked(
    log: Log, folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> Callable[..., Told]:
    post_text(log, GROUND)

    def told(*words: str) -> Told:
        monkeypatch.setattr(sys, "argv", ["asburied", "--record", str(folder), *words])
        monkeypatch.setattr(sys, "stdout", sys.stdout)
        with pytest.raises(SystemExit) as left:
            main()
        return int(left.value.code or 0), *capsys.readouterr()

    return told


@pytest.mark.parametrize(
    "words",
    [
        ["-1.00,-4.80"],
        ["-1.00", "-4.80"],
        ["--", "-1.00", "-4.80"],
        ["-1.00 m, -4.80 m"],
        ["""-3' 3 3/8",-15' 9\""""],
    ],
)
def test_a_spot_south_west_of_the_peg_is_asked_for_in_any_of_these_ways(
    asked: Callable[..., Told], words: list[str]
) -> None:
    """3' 3 3/8" is 1.00 m and 15' 9" is 4.80 m, to the nearest 2 mm; the top is 48.025."""
    status, out, errors = asked("beneath", "--json", *words)
    assert (status, errors) == (0, "")
    (column,) = json.loads(out)["columns"]
    assert column["x_m"] == pytest.approx(-1.0, abs=2e-3)
    assert column["y_m"] == pytest.approx(-4.8, abs=2e-3)
    assert column["down"][0]["depth_m"] == pytest.approx(1.975, abs=1e-3)


def test_two_tapes_and_a_side_ask_for_the_spot_where_they_meet(asked: Callable[..., Told]) -> None:
    """6, 8, 10: from H1 6.00 and from H2 8.00 they meet at (3.6, ±4.8)."""
    tapes = ("--from", "H1 6.00 m", "--from", "H2 8.00 m")
    status, out, _ = asked("beneath", *tapes, "--side", "south", "--json")
    (column,) = json.loads(out)["columns"]
    assert status == 0
    assert (column["x_m"], column["y_m"]) == pytest.approx((3.6, -4.8), abs=1e-3)
    assert [hit["tag"] for hit in column["down"]] == ["W-1"]
    both = json.loads(asked("beneath", *tapes, "--json")[1])["columns"]
    assert len(both) == 2


@pytest.mark.parametrize(
    "words",
    [
        [],
        ["W-1/1", "--from", "H1 6 m"],
        ["--form", "H1 6 m"],
        ["--from", "H1", "--from", "H2"],
        ["--from", "H1 6", "--from", "H2 8"],
        ["1.00,two"],
        ["1.00,2.00,3.00"],
    ],
)
def test_a_spot_written_wrongly_is_refused_with_what_to_write(
    asked: Callable[..., Told], words: list[str]
) -> None:
    status, out, errors = asked("beneath", *words)
    assert (status, out) == (2, "")
    assert errors.strip() and "Traceback" not in errors


def test_a_spot_that_is_nowhere_is_told_with_what_is_like_it(asked: Callable[..., Told]) -> None:
    status, _, errors = asked("beneath", "W-2/1")
    assert status == 1 and "W-1" in errors


def test_where_the_site_is_in_feet_a_bare_number_could_be_read_two_ways(
    log: Log, asked: Callable[..., Told]
) -> None:
    post_text(
        log,
        SITE.replace("plan", "units").replace(
            "- name: Fern Bank\n- datum: bolt in the "
            "plinth, 50.000 m\n- grid: x east, y north, from the peg\n",
            "- units: feet\n",
        ),
    )
    assert asked("beneath", "1.00,2.00")[0] == 2
    assert asked("beneath", "1.00 m,2.00 m")[0] == 0


def test_a_run_is_drawn_from_the_side_into_a_new_file_and_never_over_one(
    asked: Callable[..., Told], tmp_path: Path
) -> None:
    """W-1 lies level, its axis at 48.000, invert 47.980: by tape, so told in centimetres."""
    drawn = tmp_path / "W-1.svg"
    status, out, errors = asked("profile", "W-1", "--svg", str(drawn))
    assert (status, errors) == (0, "") and str(drawn) in out
    picture = drawn.read_text(encoding="utf-8")
    assert picture.startswith("<svg") and ">47.98<" in picture and "47.980" not in picture
    status, _, errors = asked("profile", "W-1", "--svg", str(drawn))
    assert status == 1 and "is there already" in errors
    assert drawn.read_text(encoding="utf-8") == picture
