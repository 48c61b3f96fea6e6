"""A reader's copy answers as the whole record does for that reader, or reserves more."""

from __future__ import annotations

import json
import os
import re
import subprocess
from contextlib import nullcontext
from itertools import product
from pathlib import Path

import pytest
import sqlalchemy as sa
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec import structs

from record.accounts.proofs import NOT_TOLD, STANDS, VOID, proofs
from record.answers import behind, json_form
from record.answers.asked_spot import AskedSpot
from record.answers.beneath import beneath
from record.answers.fixings import fixings
from record.answers.ground_pass import ground_pass
from record.answers.work_pass import NoPass, work_pass
from record.archive import held_back, packed, unpack, write_folder
from record.checks import json_form as ready_form
from record.checks import ready
from record.entry import seal, stubs
from record.exports import geojson
from record.exports.items import about
from record.fold import fold
from record.log import Folder, Log, handed_over, merge
from record.readers import look, look_at
from record.reserved import carried_in
from tests.office import programs
from tests.record.answers.shelter import SITE, block, fit_out, hull, panel, run, sheet
from tests.record.building import entries_of
from tests.typed import asburied

RECEIVED = "2031-06-01T12:00:00Z"
PANELS = ("left", "right", "near", "far", "floor", "ceiling")
SPOTS = [(x, y) for x in range(80, 132, 6) for y in range(180, 216, 5)]


def place(n=1, **fields):
    """A store is the owner's alone: what it is and where, no other reader is told."""
    size = {"along": "0.40 m", "across": "0.09 m", "height": "0.40 m"}
    return block(f"store S-{n}", name="box", **size | fields)


def in_hull(n, a, l, level):  # noqa: E741
    return place(n, hull="A", from_near=f"{a} m ± 10 mm", from_left=f"{l} m", bottom=f"{level} m")


def on_grid(n, x, y, level):
    return place(n, x=f"{x} m", y=f"{y} m", bottom=f"{level} m")


STATED = [panel(face, f"P-{n}") for n, face in enumerate(PANELS)]
RUN = run("W-1", [("1", 99, 203, 49, "10 mm"), ("2", 108, 203, 49.2, "10 mm")])
ZONE = block(
    "reserved zone R-1", hull="A", face="left", hazard="ask", from_near="2.00 m",
    bottom="50.50 m", width="1.20 m", height="1.00 m",
)  # fmt: skip


def recorded(*secrets, later=()):
    told = sheet(SITE, hull(), *STATED, fit_out(), RUN, ZONE)
    secret = [sheet(*secrets, writer="ow", date="2031-05-15")] if secrets else []
    return entries_of(told, *secret, *later)


def kept(place_, entries):
    log = Log.make(place_)
    with log.writing() as writing:
        writing.append(entries, received=RECEIVED)
    return log


def copy_of(tmp, entries, reader="technician", without=()):
    """Pack the record, restore it elsewhere, and return its log."""
    with kept(tmp / "whole", entries) as log:
        said = held_back(entries, without, log.files).entries if without else entries
        view = look(said, reader, whole=entries if without else None)
        write_folder(packed(view, log.files).files, tmp / "bag")
    unpack(tmp / "bag", tmp / "copy", received=RECEIVED)
    return Log.open(tmp / "copy")


def view_in(log, reader):
    entries = log.entries()
    return look(entries, reader, packed=carried_in(log.files, entries))


def answers(view):
    """Return what is said of every panel at several reaches, and of ground here and there."""
    found = {}
    for n, reach in product(range(len(PANELS)), (0.3, 1.0, 2.0, 4.5, 10.0)):
        found[f"behind P-{n} {reach}"] = json_form(behind(view, f"P-{n}", reach_m=reach))
    for n in range(len(PANELS)):
        found[f"fixings P-{n}"] = json_form(fixings(view, f"P-{n}", depth_m=0.02))
    for at, within in product(SPOTS, (0.0, 0.5, 3.0)):
        spot = AskedSpot(x_m=float(at[0]), y_m=float(at[1]), within_m=within, placed_by="x, y")
        found[f"beneath {at} {within}"] = json_form(beneath(view, "spot", [spot]))
    return found


CASES = {
    "behind the left wall": [in_hull(1, 2.4, 0.0, 50.7)],
    "outside the zone, and in the ground": [in_hull(1, 1.0, 0.0, 50.7), on_grid(2, 125, 190, 48)],
    "under the floor, in two hulls' ground": [in_hull(1, 2.4, 1.2, 49.5), on_grid(2, 97, 202, 48)],
    "a mend that no other reader sees": [in_hull(1, 5.9, 1.0, 50.7), on_grid(3, 87, 211, 47.5)],
    "of no place at all": [place(1)],
    "nothing": [],
}


@pytest.mark.parametrize("secrets", CASES.values(), ids=CASES)
def test_the_copy_says_just_what_the_whole_record_says_to_that_reader(tmp_path, secrets):
    entries = recorded(*secrets)
    whole = answers(look(entries, "technician"))
    with copy_of(tmp_path, entries) as log:
        assert answers(view_in(log, "technician")) == whole
        assert stubs(log.entries()) is not None  # the sheets' own lines at least


@given(
    st.lists(
        st.tuples(st.booleans(), st.integers(-30, 90), st.integers(-40, 70), st.integers(470, 530)),
        min_size=1,
        max_size=4,
    )
)
@settings(max_examples=12, deadline=None, suppress_health_check=list(HealthCheck))
def test_wherever_secrets_lie_the_copy_reserves_what_the_whole_record_does(
    tmp_path_factory, secrets
):
    stores = [
        in_hull(n, a / 10, b / 10, z / 10) if inside else on_grid(n, 100 + a, 200 + b, z / 10)
        for n, (inside, a, b, z) in enumerate(secrets)
    ]
    entries = recorded(*stores)
    view = look(entries, "technician")
    with copy_of(tmp_path_factory.mktemp("copy"), entries) as log:
        copy = view_in(log, "technician")
        assert (copy.withheld, copy.unread) == (view.withheld, view.unread)
        assert answers(copy) == answers(view)


def test_a_spot_on_the_edge_of_a_module_is_never_less_reserved(tmp_path):
    """A box whose edges lie on the lines of the grid: squares touch there."""
    entries = recorded(place(1, x="120.00 m", y="190.00 m", bottom="48 m", along="10 m",
                             across="10 m"))  # fmt: skip
    view = look(entries, "technician")
    with copy_of(tmp_path, entries) as log:
        copy = view_in(log, "technician")
        for x, y in product((99.0, 109.99, 110.0, 120.0, 130.0, 130.01), repeat=2):
            assert copy.reserved_below((x, y + 70), 0.0) >= view.reserved_below((x, y + 70), 0.0)


def test_whoever_owns_the_copy_is_told_what_its_reader_is_and_that_it_is_not_all(tmp_path):
    entries = recorded(in_hull(1, 1.0, 0.0, 50.7))
    with copy_of(tmp_path, entries) as log:
        found = log.entries()
        view = look_at(fold(found), packed=carried_in(log.files, found))
        reader = view_in(log, "technician")
        for n in range(len(PANELS)):
            own, other = behind(view, f"P-{n}"), behind(reader, f"P-{n}")
            assert own.reserved == other.reserved and own.items == other.items
            assert own.further_entries == other.further_entries
            assert "no entry is left out" not in own.further_entries
        assert [behind(view, f"P-{n}").reserved for n in range(6)].count(False) > 0


@pytest.mark.parametrize("reader", ["trade", "responder"])
def test_for_a_reader_it_was_not_packed_for_all_is_reserved(tmp_path, reader):
    with copy_of(tmp_path, recorded(in_hull(1, 1.0, 0.0, 50.7))) as log:
        view = view_in(log, reader)
        panels = [each.tag for each in view.built.of_kind("panel")]
        assert all(behind(view, tag).reserved for tag in panels)
        assert view.reserved_below((500.0, 500.0), 0.0)


def all_reserved(view):
    told = [behind(view, f"P-{n}").reserved for n in range(len(PANELS))]
    return all(told) and view.reserved_below((500.0, 500.0), 0.0)


NEW = {
    "a remark": ("ck", "## remark\n\nDry.", False),
    "a hull set down elsewhere": ("ck", hull(x="103.00 m ± 10 mm"), True),
    "one more hull": ("ck", hull("B", x="125.00 m"), True),
    "a valve": ("ck", block("valve V-9", type="gate", on_run="W-1"), True),
}


@pytest.mark.parametrize(("writer", "blocks", "gives_up"), NEW.values(), ids=NEW)
def test_it_holds_until_something_comes_in_that_may_move_things(tmp_path, writer, blocks, gives_up):
    """What is new is posted in the copy by one who never wrote in the record before."""
    entries = recorded(in_hull(1, 1.0, 0.0, 50.7))
    later = recorded(in_hull(1, 1.0, 0.0, 50.7), later=[sheet(blocks, writer=writer)])
    new = [entry for entry in later if entry.link.writer == writer]
    with copy_of(tmp_path, entries) as log:
        assert not all_reserved(view_in(log, "technician"))
        with log.writing() as writing:
            writing.append(new, received=RECEIVED)
        assert all_reserved(view_in(log, "technician")) == gives_up


def test_a_newer_link_without_its_content_gives_it_up(tmp_path):
    entries = recorded(in_hull(1, 1.0, 0.0, 50.7))
    later = recorded(in_hull(1, 1.0, 0.0, 50.7), later=[sheet("## remark\n\nDry.", writer="ck")])
    with copy_of(tmp_path, entries) as log:
        new = [e for e in look(later, "technician").built.entries if e.link.writer == "ck"]
        assert any(entry.content is None for entry in new)  # the sheet is the owner's alone
        with log.writing() as writing:
            writing.take(new, [e for e in new if e.content], received=RECEIVED)
        assert all_reserved(view_in(log, "technician"))


def test_as_of_another_day_all_is_reserved(tmp_path):
    with copy_of(tmp_path, recorded(in_hull(1, 1.0, 0.0, 50.7))) as log:
        entries = log.entries()
        packed_ = carried_in(log.files, entries)
        assert packed_ is not None
        assert all_reserved(look(entries, "technician", as_of="2031-12-31", packed=packed_))


@pytest.mark.parametrize(
    "harm", [lambda d: d[:-9], lambda d: d.replace(b"true", b"false"), lambda _: b""]
)
def test_a_changed_file_of_what_is_reserved_reserves_all(tmp_path, harm):
    with copy_of(tmp_path, recorded(in_hull(1, 1.0, 0.0, 50.7))) as log:
        (path,) = (tmp_path / "copy" / "reserved").iterdir()
        path.write_bytes(harm(path.read_bytes()))
        assert all_reserved(view_in(log, "technician"))


def test_what_goes_along_tells_of_no_secret_but_which_modules_are_reserved(tmp_path):
    """Where in its module a thing lies changes no byte of it: 0.2 m or 0.3 m aside is the same."""
    said = []
    for n, by in enumerate((0.0, 0.2, 0.3)):
        entries = recorded(on_grid(1, 123 + by, 193 + by, 48), in_hull(2, 1.0 + by, 0.0, 50.7))
        with copy_of(tmp_path / str(n), entries):
            (path,) = (tmp_path / str(n) / "copy" / "reserved").iterdir()
            form = json.loads(path.read_bytes().splitlines()[0])
            said.append({k: v for k, v in form.items() if k not in ("lacks", "heads")})
        assert "S-1" not in json.dumps(form) and "box" not in json.dumps(form)
    assert said[0] == said[1] == said[2]


def test_the_new_owner_is_told_which_panels_are_reserved_for_what_was_held_back(tmp_path):
    entries = recorded(in_hull(1, 2.4, 2.91, 50.7), in_hull(2, 5.95, 1.0, 50.7))
    with copy_of(tmp_path, entries, "owner", without=["S-1"]) as log:
        found = log.entries()
        view = look_at(fold(found), packed=carried_in(log.files, found))
        right, near, far = (behind(view, f"P-{n}") for n in (1, 2, 3))
        assert right.reserved and not near.reserved and not far.reserved
        assert "S-1" not in view.built.things and "S-2" in view.built.things
        assert "S-2" in {item.tag for item in far.items}


def shelters(count):
    """
    Yield as many sites, each with a secret of its own: one is written as day sheets, the others
    are sealed anew from it under another name, with another place, other words and other salts.
    """
    text = sheet(SITE, hull(), *STATED), sheet(in_hull(1, 1.0, 0.0, 50.7), writer="ow")
    template = entries_of(*text)
    for n in range(count):
        site, heads, sealed = f"site-{n}", {}, []
        for entry in template:
            content = entry.content
            if content.kind == "store":
                along = {"text": f"2.{n % 5} m", "si": f"2.{n % 5}", "unit": "m"}
                body = content.body | {"name": f"canary {n}", "from_near": along}
                content = structs.replace(content, about=f"CANARY-{n}", body=body)
            if content.kind == "site":
                content = structs.replace(content, about=site)
            seq, prev = heads.get(entry.link.writer, (0, None))
            one = seal(
                structs.replace(content, seen={}),
                site=site, writer=entry.link.writer, seq=seq + 1, recorded=entry.link.recorded,
                prev=prev, salt=(1000 * n + len(sealed)).to_bytes(16, "big"),
            )  # fmt: skip
            heads[entry.link.writer] = one.link.seq, one.hash
            sealed.append(one)
        yield site, tuple(sealed)


def stripped(folder, entries):
    """Write the lines of a technician's bag, and what it reserves, as `merge BAG/data` reads it."""
    bag = packed(look(entries, "technician"), Folder(folder / "no files"))
    for file in bag.files:
        name = file.path.removeprefix("data/")
        if name in ("links.jsonl", "contents.jsonl", "checkpoint.txt") or name[:9] == "reserved/":
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            (folder / name).write_bytes(file.read())
    return folder


@pytest.mark.parametrize(("backend", "count"), [("folder", 20), ("office", 200)])
def test_an_office_holds_stripped_copies_without_holding_one_secret(
    tmp_path, backend, count, request
):
    """200 shelters, each packed for the technician and merged into the office: every link of every
    site, no word of a secret in any byte that is kept, and answers as each whole record gives."""
    made, kept_bytes = _office(tmp_path, backend, request)
    wholes = dict(shelters(count))
    for site, entries in wholes.items():
        with made(site) as log:
            merge(log, [handed_over(stripped(tmp_path / site, entries))], received=RECEIVED)
    held = kept_bytes()
    for n, (_, entries) in enumerate(wholes.items()):
        (secret,) = (e for e in entries if e.content.kind == "store")
        assert f"CANARY-{n}".encode() in secret.content_line
        assert all(entry.link_line in held for entry in entries)
        assert secret.content_line not in held
    assert b"canary" not in held.lower() and b"inside_length" in held
    for site, entries in [*wholes.items()][::19]:
        with made(site, there=True) as log:
            found = log.entries()
            assert sorted(e.link_line for e in found) == sorted(e.link_line for e in entries)
            whole, copy = look(entries, "technician"), view_in(log, "technician")
            told = [behind(whole, f"P-{panel_n}") for panel_n in range(len(PANELS))]
            assert told == [behind(copy, f"P-{panel_n}") for panel_n in range(len(PANELS))]
            assert {one.reserved for one in told} == {True, False}


def _office(tmp_path: Path, backend, request):
    """Return what opens or makes a site, and what gives every byte that is kept of all of them."""
    if backend == "folder":
        records = tmp_path / "records"
        records.mkdir()

        def files():
            return b"".join(p.read_bytes() for p in sorted(records.rglob("*")) if p.is_file())

        return lambda site, there=False: (Log.open if there else Log.make)(records / site), files
    from record.log import Office
    from record.log.office import OfficeFiles, made_at

    server = request.getfixturevalue("office_server")
    database = server.database()
    made_at(Office(server.url(database))).dispose()
    # Connections that are kept: opening one for each question is most of the time.
    engine = sa.create_engine(
        "postgresql+psycopg://", creator=lambda: server.connect(database, autocommit=False)
    )
    request.addfinalizer(engine.dispose)

    def made(site, there=False):
        office = Office(server.url(database), site)
        return nullcontext(Log(office, OfficeFiles(office, engine), engine))

    return made, lambda: dumped(server, database)


def dumped(server, database):
    """Return all of a database as pg_dump writes it, the bytes that it writes in hex read back."""
    command = [str(programs() / "pg_dump"), "--no-owner", server.url(database)]
    own = {**os.environ, "PGPASSFILE": str(server.password_file)}
    text = subprocess.run(command, env=own, capture_output=True, check=True).stdout
    return re.sub(rb"\\\\x([0-9a-f]*)", lambda found: bytes.fromhex(found[1].decode()), text)


def test_a_readers_bag_is_merged_into_the_office_as_it_is_typed(
    tmp_path, office_server, monkeypatch
):
    from record.log import Office

    entries = recorded(in_hull(1, 2.4, 2.91, 50.7))
    with kept(tmp_path / "whole", entries) as log:
        write_folder(packed(look(entries, "technician"), log.files).files, tmp_path / "bag")
        whole = json_form(behind(look(entries, "technician"), "P-1"))
    url = office_server.url(office_server.database())
    assert asburied("init", "--office", url).returncode == 0
    place_ = str(Office(url, "fern-bank"))
    done = asburied("--record", place_, "merge", str(tmp_path / "bag" / "data"))
    assert done.returncode == 0, done.stderr
    told = asburied("--record", place_, "behind", "P-1", "--reader", "technician", "--json")
    assert told.returncode == 0 and json.loads(told.stdout)["reserved"] == whole["reserved"]
    near = asburied("--record", place_, "behind", "P-2", "--reader", "technician", "--json")
    assert whole["reserved"] and not json.loads(near.stdout)["reserved"]
    assert "packed for technician: holds" in asburied("--record", place_, "verify").stdout


FILL = block("covering FILL", what="backfill", hides="W-1")


def test_the_copys_coverings_are_stopped_where_the_whole_records_are(tmp_path):
    """W-1 lies in the ground round hull A; a secret in the same module stops the fill."""
    for name, secret, stops in (
        ("near", on_grid(1, 101, 206, 48), True),
        ("far", on_grid(1, 305, 206, 48), False),
    ):
        entries = entries_of(
            sheet(SITE, hull(), *STATED, RUN, FILL), sheet(secret, writer="ow", date="2031-05-15")
        )
        whole = ready_form(ready(look(entries, "technician"), "FILL"))
        with copy_of(tmp_path / name, entries) as log:
            assert ready_form(ready(view_in(log, "technician"), "FILL")) == whole
            blind = ready(look(log.entries(), "technician"), "FILL")
        said = [f["says"] for f in whole["findings"] if "may not see" in f["says"]]
        assert bool(said) == stops
        assert any("may not see" in one.says for one in blind.findings)


@pytest.mark.parametrize("reader", ["technician", "owner"])
def test_an_export_of_a_copy_tells_what_is_reserved_as_one_of_the_whole_record_does(
    tmp_path, reader
):
    """The secret is in the square from x 120, y 190, and in none other, nor near the hull."""
    entries = recorded(on_grid(1, 123, 193, 48), in_hull(2, 2.4, 2.91, 50.7))
    whole = dict(about(look(entries, "technician")))["reserved"]
    assert "a square of the grid (x 120 to 130, y 190 to 200)" in whole and "panels P-1" in whole
    with copy_of(tmp_path, entries) as log:
        view = view_in(log, reader)
        assert dict(about(view))["reserved"] == whole
        assert "no sign of empty ground" in dict(about(view))["withheld"]
        reserved = [
            each["geometry"]["coordinates"]
            for each in json.loads(geojson(view))["features"]
            if each["properties"]["kind"] == "reserved"
        ]
        ring = [[120.0, 190.0], [130.0, 190.0], [130.0, 200.0], [120.0, 200.0], [120.0, 190.0]]
        assert [ring] in reserved
        blind = dict(about(look(log.entries(), reader)))["reserved"]
        assert blind.startswith("RESERVED: all of the ground, and every panel.")


def test_no_pass_from_a_copy_opens_what_the_whole_record_reserves(tmp_path):
    """Packed for the trade; none can be given at all where the copy has no owner's key."""
    entries = recorded(in_hull(1, 2.4, 2.91, 50.7), on_grid(2, 123, 193, 48))
    with copy_of(tmp_path, entries, "trade") as log:
        found = log.entries()
        owner = look_at(fold(found), packed=carried_in(log.files, found))
        more = {"depth_m": 0.02, "until": "2031-12-31", "for_whom": "painter"}
        for trade in (view_in(log, "trade"), look(found, "trade")):
            with pytest.raises(NoPass):
                work_pass(owner, trade, "A", "right", **more)
            with pytest.raises(NoPass):
                ground_pass(owner, trade, (121.0, 191.0, 3.0, 3.0), **more)


TESTED = """
## tested A

- at: 09:00
- test: air tightness
- reading: 21 m³/h
- limit: 24 m³/h at most
- result: passed
- instrument: door fan 1
"""
DRILLED = "## opened up A\n\n- at: 11:00\n- readers: owner\n- what: drilled\n- why: a bracket"


@pytest.mark.parametrize(("work", "state"), [((), STANDS), ((DRILLED,), VOID)])
def test_a_test_in_a_copy_is_worth_what_it_is_in_the_whole_record_or_cannot_be_told(
    tmp_path, work, state
):
    """A hole drilled after it voids it, whoever may know of the hole."""
    told = sheet(SITE, hull(), *STATED, TESTED)
    entries = entries_of(told, *(sheet(one, writer="ow", date="2031-05-15") for one in work))
    (whole,) = proofs(look(entries, "technician"))
    assert whole.state == state
    with copy_of(tmp_path, entries) as log:
        (one,) = proofs(view_in(log, "technician"))
        assert (one.state, one.words) == (whole.state, whole.words)
        (blind,) = proofs(view_in(log, "trade"))
        assert blind.state == NOT_TOLD and "ask the owner" in blind.words


def test_the_manual_of_a_copy_reserves_what_that_of_the_whole_record_does(tmp_path):
    """Every chapter, word for word; without what goes along every panel would be reserved."""
    from manual.build import bind, write

    entries = recorded(in_hull(1, 2.4, 2.91, 50.7), on_grid(2, 123, 193, 48))
    whole = write(bind(entries, "technician"))
    with copy_of(tmp_path, entries) as log:
        found = log.entries()
        assert write(bind(found, "technician", packed=carried_in(log.files, found))) == whole
        assert write(bind(found, "technician")) != whole


def test_a_brief_from_a_copy_says_what_one_from_the_whole_record_does(tmp_path):
    """P-1 has a secret behind it and P-2 none; a reader it was not packed for has both reserved."""
    from manual.brief.told import brief

    entries = recorded(in_hull(1, 2.4, 2.91, 50.7))
    whole = look(entries, "technician")
    with copy_of(tmp_path, entries) as log:
        copy, other = view_in(log, "technician"), view_in(log, "trade")
        for tag, reserved in (("P-1", True), ("P-2", False)):
            told = brief(whole, tag)
            assert told == brief(copy, tag)
            assert any("RESERVED" in line for line in told.recorded) == reserved
            assert any("RESERVED" in line for line in brief(other, tag).recorded)


def test_a_release_from_a_copy_says_what_still_stops_it_there(tmp_path):
    """The command reads what the copy carries: hidden work voids the test, and stops the fill."""
    told = sheet(SITE, hull(), *STATED, TESTED, block("covering FILL", what="backfill", hides="A"))
    entries = entries_of(told, sheet(DRILLED, writer="ow", date="2031-05-15"))
    with copy_of(tmp_path, entries, "owner", without=["ow-1"]):
        pass
    done = asburied(
        "--record", str(tmp_path / "copy"), "release", "FILL", "--by", "ld", "--second", "ck",
        ASBURIED_NOW="2031-05-16T12:00:00Z",
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert "STILL STOPS A: air tightness: VOID since 2031-05-15 11:00" in done.stdout
