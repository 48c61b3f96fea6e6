"""Tomorrow's sheet: the gaps of every covering that may go on, and what must come off."""

from pathlib import Path

from record.blank import Form, of_tomorrow, write
from record.evening import evening
from record.log import Log
from record.readers import look
from tests.record.blank.filling import fill
from tests.record.blank.test_of_covering import TRENCH_BARE
from tests.record.building import day
from tests.record.checks.ground import SITE
from tests.record.checks.test_water_in_the_pit import dipped
from tests.record.evening.test_tonight import OWED
from tests.record.records import post_text

PIT = dipped("96.20").replace("covering FILL", "covering PIT")


def form_of(view, on):
    head = {"day": "2031-05-20", "writer": "ck", "part": "tomorrow", "zone": "America/Denver"}
    blocks = of_tomorrow(view, evening(view, on))
    return write(Form(**head, site=view.built.site, notes=(), blocks=blocks))


def begun(place: Path, *blocks: str) -> Log:
    log = Log.make(place)
    post_text(log, day("2031-05-13", "ld", SITE))
    post_text(log, day("2031-05-14", "ld", *blocks))
    return log


def test_water_then_coverings_then_what_comes_off_and_what_is_owed(tmp_path: Path):
    with begun(tmp_path / "r", TRENCH_BARE, PIT, OWED) as log:
        form = form_of(look(log.entries()), "2031-05-19")
    order = ("## reading taken DP-1", "BEFORE PIT", "BEFORE FILL", "## taken off", "OWED ph: ")
    places = [form.index(word) for word in order]
    assert places == sorted(places)
    assert "## hold released PIT" in form and "## hold released FILL" in form
    assert "A: empty, it begins to float with water at 96.760 m" in " ".join(form.split())


def test_filled_in_it_is_recorded(tmp_path: Path):
    with begun(tmp_path / "r", TRENCH_BARE, PIT, OWED) as log:
        view = look(log.entries())
        done = fill(form_of(view, "2031-05-19"), view.built, tmp_path)
        posted = post_text(log, done.text, folder=tmp_path)
    kinds = {entry.content.kind for entry in posted.recorded if entry.content}
    assert {"reading-taken", "hold-released", "taken-off"} <= kinds


def test_what_is_planned_for_later_is_not_asked_yet(tmp_path: Path):
    with begun(tmp_path / "r", TRENCH_BARE) as log:
        view = look(log.entries())
        assert "BEFORE FILL" not in form_of(view, "2031-05-18")
        assert "BEFORE FILL" in form_of(view, "2031-05-19")
