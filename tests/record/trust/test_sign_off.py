"""A day signed, countersigned, checked without this program, and what makes a signature fail."""

from __future__ import annotations

import hashlib
import json
import os
import stat
import subprocess
from collections.abc import Iterable
from pathlib import Path

import pytest

from record.entry import Entry
from record.log import Log
from record.trust import Head, Judged, Standing, judge, message, said_heads
from record.trust.ed25519 import public_of, sign
from tests.record.records import SITE, Tablet, post_text, sheet
from tests.typed import asburied

SEED = bytes.fromhex("9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60")
OTHER = bytes.fromhex("4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb")


@pytest.fixture
def place(tmp_path: Path) -> Path:
    with Log.make(tmp_path / "r") as log:
        post_text(log, SITE)
        post_text(log, sheet("## run AIR-IN\n\n- carries: supply air\n\n## remark\n\nStone."))
    return tmp_path / "r"


def tell(place: Path, *words: str, day: str = "2031-06-01", status: int = 0) -> str:
    done = asburied(
        "--record", str(place), *words,
        ASBURIED_NOW=f"{day}T20:00:00Z", ASBURIED_CONFIG=str(place.parent / "config"),
    )  # fmt: skip
    assert done.returncode == status, done.stdout + done.stderr
    return done.stdout + done.stderr


def signatures(place: Path, status: int = 0) -> list[dict[str, str]]:
    found: list[dict[str, str]] = json.loads(tell(place, "verify", "--json", status=status))[
        "signatures"
    ]
    return found


def test_a_key_lies_in_the_users_own_folder_and_nobody_else_may_read_it(place: Path):
    told = tell(place, "writer", "ld")
    config = place.parent / "config"
    assert stat.S_IMODE(config.stat().st_mode) == 0o700
    assert stat.S_IMODE((config / "ld.pem").stat().st_mode) == 0o600
    kept = (config / "ld.pem").read_bytes()
    public = told.split("public key ")[1].split()[0]
    assert len(public) == 64 and public in tell(place, "writer", "ld")
    assert (config / "ld.pem").read_bytes() == kept, "a key was overwritten unasked"
    assert public not in tell(place, "writer", "ld", "--anew")
    assert (config / "ld.pem").read_bytes() != kept


def test_without_a_folder_named_for_it_a_key_lies_where_the_desktop_standard_says(
    place: Path, tmp_path: Path
):
    """XDG Base Directory Specification: $XDG_CONFIG_HOME, else $HOME/.config."""
    for more, where in (
        ({"XDG_CONFIG_HOME": str(tmp_path / "x"), "HOME": str(tmp_path)}, tmp_path / "x"),
        ({"XDG_CONFIG_HOME": "", "HOME": str(tmp_path)}, tmp_path / ".config"),
    ):
        assert asburied("writer", "ck", ASBURIED_CONFIG="", **more).returncode == 0
        assert (where / "asburied" / "ck.pem").exists()


def test_a_key_for_a_demo_is_the_same_each_time_and_says_that_it_proves_nothing(tmp_path: Path):
    """Its seed is the SHA-256 of the words and the writer, so that two builds sign alike."""
    seed = hashlib.sha256(b"words\nld").digest()
    for home in ("one", "two"):
        own = {"ASBURIED_CONFIG": str(tmp_path / home), "ASBURIED_KEY_SEED": "words"}
        told = asburied("writer", "ld", **own).stdout
        assert public_of(seed).hex() in told and "proves nothing" in told
    other = asburied("writer", "ck", **own).stdout
    assert public_of(seed).hex() not in other


def test_a_day_is_signed_countersigned_and_told_with_what_came_since(place: Path):
    tell(place, "writer", "ld", "--record", "--role", "crew lead")
    tell(place, "writer", "ck", "--record")
    assert "ld to ld-5" in tell(place, "sign-off", "--day", "2031-05-14", "--as", "ld")
    assert "ld to ld-5" in tell(
        place, "sign-off", "--day", "2031-05-14", "--as", "ck", "--for", "ld"
    )
    assert "signed already" in tell(place, "sign-off", "--day", "2031-05-14", "--as", "ld")
    with Log.open(place) as log:
        post_text(log, sheet("## remark\n\nLate.\n\nLater.", part="late"))
    told = tell(place, "verify")
    # ld-6 introduced the key on another day; ld-8 to ld-10 are of the day itself.
    assert told.count("signed to ld-5; 4 entries since, 3 of them of that day") == 2
    assert sorted((s["signer"], s["standing"]) for s in signatures(place)) == [
        ("ck", "good"),
        ("ld", "good"),
    ]


def test_openssl_alone_checks_a_signature_as_the_developers_page_says(place: Path, tmp_path: Path):
    tell(place, "writer", "ld", "--record")
    tell(place, "sign-off", "--day", "2031-05-14", "--as", "ld")
    with Log.open(place) as log:
        (line,) = [c for _, _, _, c in log.lines() if c and b'"kind":"signed-off"' in c]
    body = json.loads(line)["body"]
    chains = "".join(f"{piece}\n" for piece in body["chains"].split(", "))
    text = f"signed off\nsite fern-bank\nsigner ld\nday 2031-05-14\n{chains}"
    (tmp_path / "signed.txt").write_text(text, encoding="utf-8")
    page = (Path(__file__).parents[3] / "DEVELOPERS.md").read_text(encoding="utf-8")
    start = page.index('printf %s "302a300506032b6570032100')
    commands = page[start : page.index("```", start)]
    more = {"PUBLIC_KEY": body["public_key"], "SIGNATURE": body["signature"]}

    def checked() -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            ["bash", "-ec", commands],
            cwd=tmp_path,
            env={**os.environ, **more},
            capture_output=True,
            text=True,
        )

    done = checked()
    assert done.returncode == 0, done.stderr
    assert "Signature Verified Successfully" in done.stdout
    (tmp_path / "signed.txt").write_text(text.replace("ld 5", "ld 6"), encoding="utf-8")
    assert checked().returncode != 0


def test_a_key_given_up_signs_nothing_more_and_its_later_signatures_do_not_count(place: Path):
    tell(place, "writer", "ld", "--record")
    tell(place, "writer", "ck", "--record")
    tell(place, "sign-off", "--day", "2031-05-14", "--as", "ld")
    tell(place, "sign-off", "--as", "ld", day="2031-06-05")
    gone = ("writer", "ld", "--give-up", "--because", "tablet stolen", "--by", "ck")
    assert "2031-06-03" in tell(place, *gone, "--since", "2031-06-03", day="2031-06-06")
    assert [s["standing"] for s in signatures(place)] == ["good", "key given up before"]
    told = tell(place, "sign-off", "--as", "ld", day="2031-06-07", status=1)
    assert "given up" in told and "--anew" in told


def test_an_unknown_key_signs_nothing(place: Path):
    tell(place, "writer", "ld")
    assert "introduce it" in tell(place, "sign-off", "--as", "ld", status=1)
    assert "no key on this device" in tell(place, "sign-off", "--as", "ck", status=1)
    assert "2031-06-02 is in the future" in tell(
        place, "sign-off", "--as", "ld", "--day", "2031-06-02", status=1
    )


def body(
    signer: str, heads: Iterable[Head], *, seed: bytes = SEED, day: str = "2031-05-14"
) -> dict[str, str]:
    heads = list(heads)
    return {
        "signer": signer,
        "day": day,
        "chains": said_heads(heads),
        "public_key": public_of(seed).hex(),
        "signature": sign(seed, message("fern-bank", signer, day, heads)).hex(),
    }


def head(entry: Entry) -> Head:
    return Head(entry.link.writer, entry.link.seq, entry.hash)


def introduce(tablet: Tablet, writer: str, seed: bytes = SEED) -> Entry:
    key = {"writer": writer, "public_key": public_of(seed).hex(), "made": "2031-05-01"}
    return tablet.says("writer-key", "fern-bank", key)


def crew() -> tuple[Tablet, Entry]:
    ld = Tablet("ld")
    introduce(ld, "ld")
    return ld, ld.says("remark", "fern-bank", {"text": "stone"})


def one(entries: Iterable[Entry]) -> Judged:
    (found,) = judge(tuple(entries))
    return found


def test_what_is_signed_and_told_is_worked_by_hand():
    ld, said = crew()
    digest = hashlib.sha256(said.link_line).hexdigest()
    assert message("fern-bank", "ld", "2031-05-14", [head(said)]) == (
        f"signed off\nsite fern-bank\nsigner ld\nday 2031-05-14\nld 2 {digest}\n".encode()
    )
    ld.says("signed-off", "fern-bank", body("ld", [head(said)]))
    assert one(ld.chain).standing is Standing.GOOD and not one(ld.chain).faulty


@pytest.mark.parametrize("field", ["signer", "day", "chains", "public_key", "signature"])
def test_any_field_that_is_changed_makes_the_signature_bad(field: str):
    ld, said = crew()
    introduce(ld, "ck")  # the key is known to both names, so only the signature can tell
    introduce(ld, "ld", OTHER)
    fine = body("ld", [head(said)])
    other = {
        "signer": "ck",
        "day": "2031-05-15",
        "chains": said_heads([head(ld.chain[0])]),
        "public_key": public_of(OTHER).hex(),
        "signature": fine["signature"][:-2] + "00",
    }
    ld.says("signed-off", "fern-bank", {**fine, field: other[field]})
    assert one(ld.chain).standing is Standing.BAD and one(ld.chain).faulty


def test_a_key_introduced_as_somebody_elses_is_unknown():
    ld, said = crew()
    ld.says("signed-off", "fern-bank", body("ck", [head(said)]))
    assert one(ld.chain).standing is Standing.KEY_UNKNOWN


def test_a_head_that_is_not_here_is_a_fault():
    ld, _ = crew()
    gone = Head("ld", 2, "0" * 64)
    ld.says("signed-off", "fern-bank", body("ld", [gone]))
    judged = one(ld.chain)
    assert judged.standing is Standing.GOOD and judged.faulty
    assert "not in this record" in judged.covers[0].fault


def test_a_head_told_with_another_number_is_a_fault():
    ld, said = crew()
    ld.says("signed-off", "fern-bank", body("ld", [Head("ld", 1, said.hash)]))
    assert one(ld.chain).faulty and "ld-2" in one(ld.chain).covers[0].fault


def test_a_chain_that_went_on_from_before_what_was_signed_is_a_fault():
    """A restored copy lacks what was signed, and outgrows it."""
    ld, said = crew()
    restored = Tablet("ld", chain=list(ld.chain[:1]))
    ld.says("signed-off", "fern-bank", body("ld", [head(said)]))
    for n in range(4):
        restored.says("remark", "fern-bank", {"text": f"after {n}"})
    both = {e.hash: e for e in (*ld.chain, *restored.chain)}
    assert not one(ld.chain).faulty
    assert "no longer rests on it" in one(both.values()).covers[0].fault


def test_nobody_signs_what_they_had_not_seen():
    ld, said = crew()
    ck = Tablet("ck")
    ck.says("signed-off", "fern-bank", body("ld", [head(said)]))
    assert "had not seen" in one([*ld.chain, *ck.chain]).covers[0].fault


def test_an_earlier_signature_that_the_giving_up_had_not_seen_is_in_doubt():
    """A thief may write any day: only having been seen before proves it."""
    ld, said = crew()
    ld.says("signed-off", "fern-bank", body("ld", [head(said)]), on="2031-05-14")
    gone = {
        "writer": "ld",
        "public_key": public_of(SEED).hex(),
        "since": "2031-05-20",
        "why": "stolen",
    }
    aware, unaware = Tablet("ck"), Tablet("ck")
    aware.meets(ld)
    aware.says("key-given-up", "fern-bank", gone)
    unaware.says("key-given-up", "fern-bank", gone)
    assert one([*ld.chain, *aware.chain]).standing is Standing.GOOD
    assert one([*ld.chain, *unaware.chain]).standing is Standing.IN_DOUBT


def test_a_signature_can_be_withdrawn_and_never_mended():
    ld, said = crew()
    signed = ld.says("signed-off", "fern-bank", body("ld", [head(said)]))
    ld.withdraws(signed)
    assert one(ld.chain).standing is Standing.WITHDRAWN and not one(ld.chain).faulty
    other, again = crew()
    first = other.says("signed-off", "fern-bank", body("ld", [head(again)]))
    other.says("signed-off", "fern-bank", {"day": "2031-05-15"}, mends=[first])
    standings = [judged.standing for judged in judge(other.chain)]
    assert standings[1] is Standing.BAD
