"""asburied export: files for other programs."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from record.log import Log
from tests.record.cli.test_every_command import Told, here
from tests.record.records import post_text, sheet

__all__ = ["here"]  # the fixture
MARK = sheet("## landmark H1\n\n- what: corner of the house\n- x: 90.00 m\n- y: 210.00 m")
SECRET = sheet("## remark\n\n- readers: owner\n\nA secret.", part="b")


@pytest.mark.parametrize("format_", ["geojson", "csv", "workbook", "ifc"])
def test_a_record_is_exported_once_for_its_reader(
    log: Log, folder: Path, tmp_path: Path, here: Callable[..., Told], format_: str
):
    post_text(log, MARK)
    post_text(log, SECRET)
    out = tmp_path / "out"
    words = ("--record", str(folder), "export", format_, "--out", str(out), "--reader", "trade")
    status, told, errors = here(*words)
    assert (status, errors) == (0, "") and "2 things, for trade" in told
    # The remark, and the sheets that were posted: three of those.
    assert "4 entries are withheld" in told and out.exists()
    status, told, errors = here(*words)
    assert (status, told) == (1, "") and "is there already" in errors


def test_a_map_on_earth_says_that_it_gives_the_place_away(
    log: Log, folder: Path, tmp_path: Path, here: Callable[..., Told]
):
    post_text(log, MARK)
    out = tmp_path / "map.geojson"
    words = ("--record", str(folder), "export", "geojson", "--out", str(out))
    status, told, _ = here(*words, "--tie", "44.125,-116.5,0")
    assert status == 0 and "where on earth the site lies" in told
    (mark,) = [f for f in json.loads(out.read_bytes())["features"] if f["id"] == "H1"]
    assert mark["geometry"]["coordinates"][0] == pytest.approx(-116.4989, abs=1e-3)
    with Log.open(folder) as again:  # given for the file alone: nothing of it is recorded
        assert not [e for e in again.entries() if b"116.5" in (e.content_line or b"")]


@pytest.mark.parametrize(
    "words",
    [
        ("csv", "--out", "x", "--tie", "44.125,-116.5,0"),
        ("geojson", "--out", "x", "--tie", "here"),
        ("geojson", "--out", "x", "--reader", "everyone"),
        ("drawing", "--out", "x"),
        ("geojson",),
    ],
)
def test_a_wrong_asking_leaves_with_2_and_writes_nothing(
    log: Log, folder: Path, tmp_path: Path, here: Callable[..., Told],
    monkeypatch: pytest.MonkeyPatch, words: tuple[str, ...],
):  # fmt: skip
    monkeypatch.chdir(tmp_path)
    status, told, errors = here("--record", str(folder), "export", *words)
    assert (status, told) == (2, "") and errors
    assert not (tmp_path / "x").exists()
