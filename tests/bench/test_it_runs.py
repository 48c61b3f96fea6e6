"""The bench runs, small; how fast is not asked here."""

from __future__ import annotations

from pathlib import Path

import pytest

from record.log import Log
from tests.bench import checking, fleet, floors, long, manuals, panels, recalls, sealed
from tests.bench.__main__ import compare, evening, figures, post, question, reckon
from tests.bench.day import long_sheet
from tests.bench.made import Site, record_of
from tests.bench.made import fleet as sites_of
from tests.office import Server


def test_a_small_sheet_is_posted_and_its_floor_is_written(tmp_path: Path) -> None:
    row = post(tmp_path, lines=120, times=1)
    assert row.startswith("post, ") and "entries" in row


def test_a_covering_among_many_things_is_asked() -> None:
    assert evening(things=200, times=1).startswith("ready, 200 things")


def test_the_same_work_is_done_on_an_encrypted_record_and_on_a_plain_one(tmp_path: Path) -> None:
    plain = record_of(tmp_path / "r", Site("fern-bank"), 100)
    post_row, ask_row = sealed.sealed(tmp_path, compare, lines=120, times=1, record=plain)
    assert post_row.startswith("sealed, post") and ask_row.startswith("sealed, entries")


def test_the_long_sheet_has_about_the_lines_asked_for() -> None:
    assert 2000 <= long_sheet(2000).count("\n") <= 2080


def test_the_sums_that_are_timed_are_worked_and_so_are_their_floors() -> None:
    """A process that fails stops the bench; so none is timed that was refused."""
    heap, drop = reckon(times=1)
    assert heap.startswith("reckon, heap") and drop.startswith("reckon, air-drop")


def test_a_question_of_the_demo_is_asked_as_it_is_typed(built: Path) -> None:
    shown, behind = question(built / "larch-end", times=1)
    assert shown.startswith("question, show DV-1") and behind.startswith("question, behind A-L3")


def test_every_figure_of_a_record_is_worked_in_one_pass(tmp_path: Path) -> None:
    row = figures(record_of(tmp_path / "r", Site("fern-bank"), 300), times=1)
    assert row.startswith("figures, ") and row.endswith("2 s")


def test_the_floor_decodes_the_same_lines_with_their_measured_numbers():
    pairs = list(Site("fern-bank").entries(300))
    entries = long.read_all(pairs)
    for (link, content), entry in zip(floors.decode(pairs), entries, strict=True):
        assert (link.seq, content.about) == (entry.link.seq, entry.content.about)
        said = {
            n: str(v.si) for n, v in content.body.items() if isinstance(v, floors.Measured) and v.si
        }
        assert said == {
            n: form["si"] for n, form in entry.content.body.items() if isinstance(form, dict)
        }


def test_a_fleet_and_a_long_record_are_measured(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(long, "TURNS", 1)
    rows = long.folding(lambda: sites_of(2, 100), "2 sites of 100", 1)
    assert len(rows) == 3 and all("µs each" in row for row in rows)
    assert "an entry" in long.memory(200)
    (show, behind) = long.opening(tmp_path, (150,))
    assert show.startswith("show V-1") and behind.startswith("behind P-1")


def test_growth_is_told_by_entry():
    rows = list(long.growth((200, 400)))
    assert ["200 entries" in rows[0], "400 entries" in rows[1]] == [True, True]


def test_panels_among_pipes_are_answered_by_boxes_as_with_every_shape_in_turn():
    view = panels.view_of(list(panels.Piped("fern-bank").entries(3000)))
    asked = list(panels.frames(view))
    assert len(asked) == panels.HULLS
    found = [panels.by_boxes(view, frame) for frame in asked]
    assert found == [panels.in_turn(view, frame) for frame in asked]
    assert any(len(each) > 3 for each in found)
    assert all("p99" in row for row in panels.panels(600, 1))


def test_a_recall_over_a_fleet_is_measured_on_both_databases(
    tmp_path: Path, office_server: Server, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    (tmp_path / "sites").mkdir()
    rows = [
        recalls.in_folders(tmp_path / "sites", 9, 120),
        recalls.in_office(office_server.url(office_server.database()), 9, 120),
    ]
    assert all(" sites of 120: first " in row and "have it" in row for row in rows)


def test_a_fleet_filled_past_posting_is_sound_and_a_recall_of_it_is_timed_as_typed(
    tmp_path: Path, office_server: Server, monkeypatch: pytest.MonkeyPatch
):
    """Of nine sites one has the lot; what is asked again is answered alike."""
    monkeypatch.setattr(fleet, "TIMES", 2)
    monkeypatch.setenv("PGPASSFILE", str(office_server.password_file))
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    for at in (str(tmp_path / "sites"), office_server.url(office_server.database())):
        fleet.main("fill", at, "9", "120")
        first, then, size = fleet.ask(at)
        assert "asked of 9 records" in first and then.startswith("then ") and size.endswith(" GB")


def test_lines_and_pictures_are_verified_beside_their_hashing(tmp_path: Path):
    alone, full = checking.checking(tmp_path, compare, lines=200, pictured=200, times=1)
    assert alone.startswith("verify, 200 entries") and "200, 28 pictures" in full


def test_an_edition_is_timed_against_its_own_page_and_one_thing_more_is_recorded(tmp_path: Path):
    record = manuals.panelled(tmp_path / "site", panels=2, photos=1)
    rows = manuals.manuals(tmp_path, record, "small", 1)
    assert next(rows).startswith("manual, small, time")
    assert next(rows).startswith("manual, small, memory")
    page = (tmp_path / "page.html").read_text(encoding="utf-8")
    assert "data:image/jpeg;base64," in page
    assert (record / "manual.cache").exists()
    manuals.enter(record)
    with Log.open(record) as log:
        assert any(b"The lamp was cleaned." in (e.content_line or b"") for e in log.entries())
