"""The same tables on PostgreSQL: many sites, apart by site, and roles that can only add.

Every table carries the site, and is kept in sixteen parts by it. ``kept`` holds what a record's
folder holds in files. ``arrivals`` has a row for each time that something came in, written by the
database itself: whoever keeps something derived sees by its newest row whether that is still of
today. Text is compared by its bytes, as SQLite does.
"""

from __future__ import annotations

from collections.abc import Iterator

PARTS = 16
TABLES = {
    "links": """
        site text COLLATE "C" NOT NULL, hash text COLLATE "C" NOT NULL,
        writer text COLLATE "C" NOT NULL, seq integer NOT NULL,
        content text COLLATE "C" NOT NULL, received text NOT NULL, line bytea NOT NULL,
        PRIMARY KEY (site, hash)""",
    "contents": """
        site text COLLATE "C" NOT NULL, hash text COLLATE "C" NOT NULL,
        kind text NOT NULL, about text NOT NULL, line bytea NOT NULL,
        PRIMARY KEY (site, hash)""",
    "kept": """
        site text COLLATE "C" NOT NULL, place text COLLATE "C" NOT NULL,
        sha256 text COLLATE "C" NOT NULL, suffix text NOT NULL, data bytea NOT NULL,
        PRIMARY KEY (site, place, sha256)""",
}
NEVER = "what was recorded is never changed"
CREW, READER = "asburied_crew", "asburied_reader"


def statements() -> Iterator[str]:
    """Yield what makes the tables, in order."""
    yield (
        "CREATE FUNCTION asburied_never() RETURNS trigger LANGUAGE plpgsql AS "
        f"$$ BEGIN RAISE EXCEPTION '{NEVER}'; END $$"
    )
    for table, columns in TABLES.items():
        yield f"CREATE TABLE {table} ({columns}) PARTITION BY HASH (site)"
        for part in range(PARTS):
            yield (
                f"CREATE TABLE {table}_{part} PARTITION OF {table} "
                f"FOR VALUES WITH (MODULUS {PARTS}, REMAINDER {part})"
            )
        yield from _refused(table, [f"{table}_{part}" for part in range(PARTS)])
    yield "CREATE INDEX links_in_order ON links (site, writer, seq)"
    yield from _arrivals()
    yield from _roles()


def _refused(table: str, parts: list[str]) -> Iterator[str]:
    yield (
        f"CREATE TRIGGER never BEFORE UPDATE OR DELETE ON {table} "
        "FOR EACH ROW EXECUTE FUNCTION asburied_never()"
    )
    # Emptying a table asks no row, and the parts are not asked through their whole.
    for each in (table, *parts):
        yield (
            f"CREATE TRIGGER never_emptied BEFORE TRUNCATE ON {each} "
            "FOR EACH STATEMENT EXECUTE FUNCTION asburied_never()"
        )


def _arrivals() -> Iterator[str]:
    yield (
        'CREATE TABLE arrivals (site text COLLATE "C" NOT NULL, '
        "id bigint GENERATED ALWAYS AS IDENTITY, head text NOT NULL, PRIMARY KEY (site, id))"
    )
    yield from _refused("arrivals", [])
    # With its owner's rights: nobody but this writes there.
    yield (
        "CREATE FUNCTION asburied_arrived() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER AS "
        "$$ BEGIN INSERT INTO arrivals (site, head) SELECT site, max(hash) FROM came "
        "GROUP BY site; RETURN NULL; END $$"
    )
    # Found in the schema these tables are in, whatever the caller's own path names first.
    yield (
        "DO $$ BEGIN EXECUTE format('ALTER FUNCTION asburied_arrived() SET search_path = %I, "
        "pg_temp', current_schema()); END $$"
    )
    for table in ("links", "contents"):
        yield (
            f"CREATE TRIGGER arrived AFTER INSERT ON {table} REFERENCING NEW TABLE AS came "
            "FOR EACH STATEMENT EXECUTE FUNCTION asburied_arrived()"
        )


def _roles() -> Iterator[str]:
    """Make the two roles where that is allowed; else somebody makes them and grants the same."""
    for role, rights in ((CREW, "SELECT, INSERT"), (READER, "SELECT")):
        yield f"""DO $$ BEGIN
            IF NOT EXISTS (SELECT FROM pg_roles WHERE rolname = '{role}') THEN
                CREATE ROLE {role} NOLOGIN;
            END IF;
            EXECUTE format('GRANT USAGE ON SCHEMA %I TO {role}', current_schema());
            GRANT {rights} ON links, contents, kept TO {role};
            GRANT SELECT ON arrivals, alembic_version TO {role};
        EXCEPTION WHEN insufficient_privilege THEN
            RAISE NOTICE 'the role {role} could not be made';
        END $$"""
