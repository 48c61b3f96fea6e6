"""PostgreSQL for tests: Debian's own, on loopback, as a normal user, in a folder of its own.

Logins need their passwords, as they would at an office. ``office_server`` is for whole runs; the
database that ``Server.database`` makes is new each time.
"""

from __future__ import annotations

import os
import pwd
import secrets
import shutil
import socket
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

OWNER, CREW, STRANGER = "office", "ld", "visitor"


@dataclass
class Server:
    """A running server; passwords stand in a file as libpq reads it."""

    port: int
    folder: Path
    password_file: Path
    made: list[str] = field(default_factory=list)

    def url(self, database: str, login: str = OWNER) -> str:
        return f"postgresql://{login}@127.0.0.1:{self.port}/{database}"

    def connect(self, database: str, login: str = OWNER, *, autocommit: bool = True) -> Any:
        import psycopg

        return psycopg.connect(
            self.url(database, login), passfile=str(self.password_file), autocommit=autocommit
        )

    def database(self) -> str:
        """Make an empty database and return its name."""
        name = f"record_{len(self.made) + 1}"
        with self.connect("postgres") as connection:
            connection.execute(f"CREATE DATABASE {name}")
        self.made.append(name)
        return name


def programs() -> Path:
    """Return the folder of initdb and pg_ctl."""
    found = sorted(Path("/usr/lib/postgresql").glob("*/bin/initdb"), key=lambda p: int(p.parts[-3]))
    named = shutil.which("initdb")
    if not found and named is None:
        raise RuntimeError(
            "PostgreSQL is not on this machine, and the record is tested on it too; on Debian: "
            "apt-get install postgresql"
        )
    return found[-1].parent if found else Path(str(named)).parent


def _as_whom() -> dict[str, Any]:
    """PostgreSQL does not run as root: a test that does takes another user for it."""
    if os.geteuid() != 0:
        return {}
    for name in ("postgres", "nobody"):
        try:
            who = pwd.getpwnam(name)
        except KeyError:
            continue
        return {"user": who.pw_uid, "group": who.pw_gid, "extra_groups": []}
    raise RuntimeError("no user but root to run PostgreSQL as")


@contextmanager
def running() -> Iterator[Server]:
    """Run a server until the block ends, and leave nothing of it."""
    folder = Path(tempfile.mkdtemp(prefix="asburied-office-", dir="/tmp"))
    whom = _as_whom()
    if whom:
        os.chown(folder, whom["user"], whom["group"])
    words = {login: secrets.token_hex(8) for login in (OWNER, CREW, STRANGER)}
    secret = folder / "first"
    secret.write_text(words[OWNER])
    if whom:
        os.chown(secret, whom["user"], whom["group"])
    bin_, data = programs(), folder / "data"
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]

    def do(*command: str) -> None:
        done = subprocess.run(
            command, cwd=folder, capture_output=True, text=True, timeout=120, **whom
        )
        if done.returncode:
            raise RuntimeError(f"{command[0]}: {done.stdout}{done.stderr}")

    # C.UTF-8: the order of letters must not hang on the machine's language.
    do(str(bin_ / "initdb"), "-D", str(data), "-U", OWNER, "-A", "scram-sha-256",
       "--pwfile", str(secret), "-E", "UTF8", "--locale=C.UTF-8", "--no-sync")  # fmt: skip
    settings = f"-h 127.0.0.1 -p {port} -k {folder} -c fsync=off -c max_connections=80"
    log = folder / "log"
    try:
        do(str(bin_ / "pg_ctl"), "-D", str(data), "-w", "-t", "60", "-l", str(log), "-o", settings,
           "start")  # fmt: skip
        passwords = folder.with_name(f"{folder.name}.pgpass")
        passwords.write_text(
            "".join(f"127.0.0.1:{port}:*:{login}:{word}\n" for login, word in words.items())
        )
        passwords.chmod(0o600)
        yield Server(port, folder, passwords)
    finally:
        if (data / "postmaster.pid").exists():
            do(str(bin_ / "pg_ctl"), "-D", str(data), "-m", "immediate", "-w", "stop")
        shutil.rmtree(folder, ignore_errors=True)
        folder.with_name(f"{folder.name}.pgpass").unlink(missing_ok=True)


def logins(server: Server) -> None:
    """Make a login of the crew and one of nobody in particular, with the passwords of the file."""
    words = dict(line.split(":")[3:] for line in server.password_file.read_text().splitlines())
    with server.connect("postgres") as connection:
        for login in (CREW, STRANGER):
            connection.execute(f"CREATE ROLE {login} LOGIN PASSWORD '{words[login]}'")
