"""The log on PostgreSQL: what each login may do, many sites at once, and refusals in words."""

from __future__ import annotations

import sys
from typing import Any

import psycopg
import pytest

from record.log import Log, LogFault, NotARecord, Office, RecordTooNew, place_of, verify
from record.log.places import PasswordInPlace
from record.log.sites import sites_in
from tests.office import CREW, STRANGER, Server
from tests.record.records import SITE, Tablet, post_text, sheet
from tests.typed import asburied

NEVER = "what was recorded is never changed"


@pytest.fixture(scope="module")
def database(office_server: Server) -> str:
    """A database with the record of fern-bank, which the crew's login may add to."""
    name = office_server.database()
    with Log.make(Office(office_server.url(name), "fern-bank")) as log:
        post_text(log, SITE)
    with office_server.connect(name) as connection:
        connection.execute(f"GRANT asburied_crew TO {CREW}")
    return name


def at(server: Server, database: str, login: str = "office", site: str = "fern-bank") -> Office:
    return Office(server.url(database, login), site)


def rows(connection: Any, table: str) -> list[Any]:
    return list(connection.execute(f"SELECT * FROM {table} ORDER BY 1, 2").fetchall())


CHANGES = (
    "UPDATE {0} SET site = 'x'",
    "UPDATE {0} SET {1} = ''",
    "DELETE FROM {0}",
    "TRUNCATE {0}",
    "DROP TABLE {0}",
    "ALTER TABLE {0} DISABLE TRIGGER ALL",
    "INSERT INTO {0} SELECT * FROM {0} LIMIT 1 ON CONFLICT (site, hash) DO UPDATE SET site = 'x'",
    "CREATE TRIGGER mine BEFORE INSERT ON {0} FOR EACH ROW EXECUTE FUNCTION asburied_never()",
)


@pytest.mark.parametrize("sql", CHANGES)
@pytest.mark.parametrize("table", ["links", "contents"])
def test_the_crews_login_can_change_nothing_of_the_past(
    office_server: Server, database: str, table: str, sql: str
):
    with office_server.connect(database, CREW) as connection:
        before = rows(connection, table)
        with pytest.raises(psycopg.Error, match=r"permission denied|must be owner"):
            connection.execute(sql.format(table, "received" if table == "links" else "about"))
        assert rows(connection, table) == before and before


@pytest.mark.parametrize("table", ["links", "contents", "kept", "arrivals"])
@pytest.mark.parametrize("sql", ["UPDATE {0} SET site = 'x'", "DELETE FROM {0}", "TRUNCATE {0}"])
def test_the_owner_of_the_tables_is_refused_too(
    office_server: Server, database: str, table: str, sql: str
):
    with office_server.connect(database) as connection:
        before = rows(connection, table)
        with pytest.raises(psycopg.Error, match=NEVER):
            connection.execute(sql.format(table))
        assert rows(connection, table) == before and before


STONES = sheet("## remark\n\n" + "\n\n".join(f"Stone {n}." for n in range(6)), writer="ck")
TURNED = "convert_to(replace(convert_from(line, 'UTF8'), 'Stone 2', 'Stone 9'), 'UTF8')"
VANDALS = {
    "oak": (f"UPDATE contents SET line = {TURNED}", "ck-3"),
    "elm": (
        "UPDATE links SET line = set_byte(line, 40, get_byte(line, 40) # 1) "
        "WHERE writer = 'ck' AND seq = 3",
        "the entry stored as",  # its line cannot be read, so it has no number
    ),
    "ash": ("DELETE FROM links WHERE writer = 'ck' AND seq = 4", "ck-4"),
    "yew": ("UPDATE links SET seq = 7 - seq WHERE writer = 'ck' AND seq IN (3, 4)", "ck-3"),
    "fir": ("UPDATE links SET seq = seq + 100 WHERE writer = 'ck' AND seq = 2", "ck-2"),
}


def test_verify_names_what_the_owner_of_the_tables_did_with_the_triggers_off(
    office_server: Server,
):
    """Each on a site of its own: a word, a byte, one left out, two swapped, one moved."""
    name = office_server.database()
    for site in VANDALS:
        with Log.make(at(office_server, name, site=site)) as log:
            for text in (SITE, STONES):
                post_text(log, text.replace("fern-bank", site))
    with office_server.connect(name) as connection:
        for table in ("links", "contents"):
            connection.execute(f"ALTER TABLE {table} DISABLE TRIGGER USER")
        for site, (sql, _) in VANDALS.items():
            where = "AND" if "WHERE" in sql else "WHERE"
            assert connection.execute(f"{sql} {where} site = '{site}'").rowcount > 0
    for site, (_, named) in VANDALS.items():
        with Log.open(at(office_server, name, site=site)) as log:
            verdict = verify(log.lines())
        assert verdict.faults and verdict.faults[0].entry.startswith(named), site


@pytest.mark.parametrize("part", range(16))
def test_no_part_of_a_table_is_a_way_round(office_server: Server, database: str, part: int):
    with office_server.connect(database) as owner:
        with pytest.raises(psycopg.Error, match=NEVER):
            owner.execute(f"TRUNCATE links_{part}")
        if owner.execute(f"SELECT count(*) FROM links_{part}").fetchone()[0]:
            with pytest.raises(psycopg.Error, match=NEVER):
                owner.execute(f"DELETE FROM links_{part}")
    with office_server.connect(database, CREW) as crew:
        for sql in ("INSERT INTO links_{0} SELECT * FROM links", "DELETE FROM links_{0}"):
            with pytest.raises(psycopg.Error, match="permission denied"):
                crew.execute(sql.format(part))


def test_the_crew_can_add_and_read_and_cannot_write_what_the_database_writes_itself(
    office_server: Server, database: str
):
    with Log.open(at(office_server, database, CREW)) as log:
        before = len(log.entries())
        post_text(log, sheet("## remark\n\nA stone.", writer="ck", part="crew"))
        assert len(log.entries()) == before + 2 and verify(log.lines()).sound
    with (
        office_server.connect(database, CREW) as crew,
        pytest.raises(psycopg.Error, match="permission denied"),
    ):
        crew.execute("INSERT INTO arrivals (site, head) VALUES ('fern-bank', 'x')")


def test_a_reader_reads_and_a_stranger_does_not(office_server: Server, database: str):
    place = at(office_server, database, STRANGER)
    with pytest.raises(LogFault, match="this login may not do that"):
        Log.open(place)
    with office_server.connect(database) as owner:
        owner.execute(f"GRANT asburied_reader TO {STRANGER}")
    with Log.open(place) as log:
        assert verify(log.lines()).sound and log.entries()
        with pytest.raises(LogFault, match="this login may not do that"):
            post_text(log, sheet("## remark\n\nA stone.", writer="te", part="reader"))


def test_each_site_is_a_record_of_its_own(office_server: Server):
    name = office_server.database()
    other = SITE.replace("fern-bank", "gorse-hill").replace("Fern Bank", "Gorse Hill")
    with Log.make(at(office_server, name)) as log:
        post_text(log, SITE)
    assert [e.link.site for e in _only(office_server, name)] == ["fern-bank"] * 2
    with Log.make(at(office_server, name, site="gorse-hill")) as log:
        post_text(log, other)
        assert {e.link.site for e in log.entries()} == {"gorse-hill"}
        chains, contents = log.chains()
        assert [c.site for c in chains] == ["gorse-hill"] and contents == 2
    with pytest.raises(LogFault, match=r"holds 2 sites \(fern-bank, gorse-hill\); say which"):
        Log.open(at(office_server, name, site=""))


def _only(server: Server, name: str) -> Any:
    with Log.open(at(server, name, site="")) as log:
        return log.entries()


def test_a_sheet_of_another_site_is_not_recorded_here(office_server: Server):
    name = office_server.database()
    with (
        Log.make(at(office_server, name, site="gorse-hill")) as log,
        pytest.raises(LogFault, match="is of fern-bank, and what was opened is gorse-hill"),
    ):
        post_text(log, SITE)
    assert sites_in(at(office_server, name)) == {}


def test_whatever_comes_in_changes_the_mark_of_its_site_and_of_no_other(office_server: Server):
    name = office_server.database()
    for site in ("fern-bank", "gorse-hill"):
        with Log.make(at(office_server, name, site=site)) as log:
            post_text(log, SITE.replace("fern-bank", site))
    office = at(office_server, name)
    before = sites_in(office)
    with Log.open(at(office_server, name)) as log, log.writing() as writing:
        one = Tablet("ck").says("remark", "fern-bank", {"text": "new"})
        writing.take([one], [], received="2031-06-01T12:00:00Z")
    linked = sites_in(office)
    with Log.open(at(office_server, name)) as log, log.writing() as writing:
        writing.take([], [one], received="2031-06-01T12:00:00Z")
    marks = [each["fern-bank"] for each in (before, linked, sites_in(office))]
    assert len(set(marks)) == 3
    assert sites_in(office)["gorse-hill"] == before["gorse-hill"]


def test_a_whole_sheet_comes_in_as_one_arrival_of_links_and_one_of_contents(office_server: Server):
    """2,100 entries are added a thousand at a time: three statements each, not 4,200."""
    name = office_server.database()
    tablet = Tablet("ck")
    many = [tablet.says("remark", "fern-bank", {"text": f"line {n}"}) for n in range(2100)]
    with Log.make(at(office_server, name, site="fern-bank")) as log:
        with log.writing() as writing:
            writing.append(many[:60], received="2031-06-01T12:00:00Z")
        with office_server.connect(name) as direct:
            assert direct.execute("SELECT count(*) FROM arrivals").fetchone() == (2,)
        with log.writing() as writing:
            writing.append(many[60:], received="2031-06-01T12:00:00Z")
        assert sorted(entry.hash for entry in log.entries()) == sorted(e.hash for e in many)
    with office_server.connect(name) as direct:
        assert direct.execute("SELECT count(*) FROM arrivals").fetchone() == (2 + 6,)


def test_two_who_make_the_tables_at_once_both_succeed(office_server: Server):
    from concurrent.futures import ThreadPoolExecutor

    name = office_server.database()
    places = [at(office_server, name, site=f"s{n}") for n in range(4)]
    with ThreadPoolExecutor(4) as many:
        for log in many.map(Log.make, places):
            log.close()


def test_a_database_without_tables_is_no_record_and_a_newer_one_is_left_alone(
    office_server: Server,
):
    name = office_server.database()
    with pytest.raises(NotARecord, match="no table of entries"):
        Log.open(at(office_server, name))
    Log.make(at(office_server, name)).close()
    with office_server.connect(name) as owner:
        owner.execute("UPDATE alembic_version SET version_num = '9999'")
    with pytest.raises(RecordTooNew, match="9999"):
        Log.open(at(office_server, name))


@pytest.mark.parametrize(
    "url", ["postgresql://ld:secret@h/d#x", "postgresql://h/d?user=ld&password=secret"]
)
def test_a_password_is_never_part_of_a_command(url: str):
    with pytest.raises(PasswordInPlace) as refused:
        place_of(url)
    assert "secret" not in str(refused.value) and "PGPASSFILE" in str(refused.value)
    done = asburied("--record", url, "show", "fern-bank")
    assert done.returncode == 2 and "secret" not in done.stdout + done.stderr


def test_what_the_server_refuses_is_said_in_words(office_server: Server, database: str,
                                                  monkeypatch: pytest.MonkeyPatch):  # fmt: skip
    silent = Office("postgresql://office@127.0.0.1:1/record", "fern-bank")
    with pytest.raises(LogFault, match="the database does not answer"):
        Log.open(silent)
    monkeypatch.setenv("PGPASSFILE", "/nowhere")
    with pytest.raises(LogFault, match=r"asks for a password; put it into a file"):
        Log.open(at(office_server, database))
    monkeypatch.setenv("PGPASSWORD", "wrong")
    with pytest.raises(LogFault, match="the password was not accepted"):
        Log.open(at(office_server, database))


def test_where_psycopg_is_not_installed_it_is_said_what_to_install(
    monkeypatch: pytest.MonkeyPatch,
):
    monkeypatch.setitem(sys.modules, "psycopg", None)
    with pytest.raises(LogFault, match=r"pip install 'asburied\[office\]'"):
        Log.open(Office("postgresql://h/d", "x"))


def test_init_says_how_to_name_a_site_and_refuses_what_is_no_database(
    office_server: Server, database: str
):
    url = office_server.url(office_server.database())
    done = asburied("init", "--office", url)
    assert done.returncode == 0 and f"--record {url}#SITE post SHEET.md" in done.stdout
    assert asburied("init", "--office", url).returncode == 0  # nothing is there to be lost
    assert asburied("init", "--office", "larch-end").returncode == 2
    done = asburied("init", "--office", f"{office_server.url(database)}#fern-bank")
    assert done.returncode == 1 and "holds a record already" in done.stderr


def test_every_table_has_the_site_first_in_its_key_and_the_large_ones_are_parted_by_it(
    office_server: Server, database: str
):
    """What a cluster is divided by: a row's site is in its key, so that a site lies in one place.

    The catalogue of PostgreSQL is asked, not our own migrations."""
    keys = """SELECT c.relname, a.attname FROM pg_index i JOIN pg_class c ON c.oid = i.indrelid
        JOIN pg_attribute a ON a.attrelid = c.oid AND a.attnum = i.indkey[0]
        WHERE i.indisprimary AND c.relnamespace = 'public'::regnamespace"""
    parted = """SELECT c.relname, p.partstrat, a.attname, count(h.inhrelid)
        FROM pg_partitioned_table p JOIN pg_class c ON c.oid = p.partrelid
        JOIN pg_attribute a ON a.attrelid = c.oid AND a.attnum = p.partattrs[0]
        JOIN pg_inherits h ON h.inhparent = c.oid GROUP BY 1, 2, 3"""
    tables = """SELECT relname FROM pg_class WHERE relkind IN ('r', 'p')
        AND relnamespace = 'public'::regnamespace"""
    with office_server.connect(database) as owner:
        first = dict(owner.execute(keys).fetchall())
        every = {name for (name,) in owner.execute(tables).fetchall()}
        assert every - first.keys() == set()
        assert {first[name] for name in every - {"alembic_version"}} == {"site"}
        found = {name: rest for name, *rest in owner.execute(parted).fetchall()}
        assert found == {name: ["h", "site", 16] for name in ("links", "contents", "kept")}
        lies_in = "SELECT count(DISTINCT tableoid) FROM links WHERE site = 'fern-bank'"
        assert owner.execute(lies_in).fetchone() == (1,)
