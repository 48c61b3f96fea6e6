"""A bag that whoever packed it signed: what it stands for is told when it is opened, and after."""

from __future__ import annotations

import hashlib
import json
import re
import shutil
import subprocess
from pathlib import Path

import pytest

from record.cli import Refused
from record.log import Log, LogFault
from record.reserved import carried_in, read_reserved, written
from record.trust import make_key

TECHNICIAN = ("--reader", "technician")


@pytest.fixture
def signed(here, tmp_path, monkeypatch):
    """A technician's bag of a record with a secret store, signed by of, and what was typed."""
    monkeypatch.setenv("ASBURIED_CONFIG", str(tmp_path / "keys"))
    here("writer", "of", "--record")
    told = here("pack", "bag", "--for", "technician", "--as", "of")
    assert "signed by of" in told
    return here


def made_anew(bag: Path) -> None:
    """Write both manifests anew, as anyone can."""
    files = [path for path in sorted(bag.rglob("*")) if path.is_file()]
    names = {path.relative_to(bag).as_posix(): path for path in files}
    payload = {name: path for name, path in names.items() if name.startswith("data/")}
    (bag / "manifest-sha256.txt").write_text(listed(payload))
    own = ("tagmanifest-sha256.txt", "signature/key.pem", "signature/signature.bin")
    tags = {k: v for k, v in names.items() if k not in payload and k not in own}
    (bag / "tagmanifest-sha256.txt").write_text(listed(tags))


def listed(names: dict[str, Path]) -> str:
    return "".join(
        f"{hashlib.sha256(path.read_bytes()).hexdigest()}  {name}\n" for name, path in names.items()
    )


def freed(data: bytes, **changes: object) -> bytes:
    """Return a file of what is reserved, written anew and rightly, that reserves nothing."""
    lacks = json.loads(data.splitlines()[0])["lacks"]
    reserved = read_reserved(data, lacks)
    assert reserved is not None
    form = {name: getattr(reserved, name) for name in type(reserved).__slots__}
    free = {"anywhere": False, "squares": (), "panels": {}, "blocks": {}, "undone": ()}
    return written(type(reserved)(**{**form, **free, **changes}), lacks)


def only(folder: Path) -> Path:
    (path,) = folder.iterdir()
    return path


def counts(place: Path) -> bool:
    """Return whether what the copy carries is used, or all is reserved."""
    with Log.open(place) as log:
        return carried_in(log.files, log.entries()) is not None


def test_openssl_finds_the_signature_over_the_list_of_all_lists(signed, tmp_path):
    """RFC 8032 by OpenSSL, over the bytes of the tag manifest and nothing else."""
    words = "-verify -pubin -inkey signature/key.pem -rawin -sigfile signature/signature.bin -in"
    for name, status in (("tagmanifest-sha256.txt", 0), ("manifest-sha256.txt", 1)):
        command = ["openssl", "pkeyutl", *words.split(), name]
        assert subprocess.run(command, cwd=tmp_path / "bag", check=False).returncode == status


def test_the_library_of_congress_finds_a_signed_bag_valid(signed, tmp_path):
    import bagit

    assert bagit.Bag(str(tmp_path / "bag")).validate()


def test_what_the_readme_has_typed_holds_the_signature_and_finds_another_key(signed, tmp_path):
    def typed() -> subprocess.CompletedProcess[str]:
        readme = (tmp_path / "bag" / "README.txt").read_text(encoding="utf-8")
        lines = [line[4:] for line in readme.splitlines() if re.match(r" {4}\S", line)]
        script = ["bash", "-c", "set -e -o pipefail\n" + "\n".join(lines)]
        return subprocess.run(script, cwd=tmp_path / "bag", capture_output=True, text=True)

    good = typed()
    assert good.returncode == 0, good.stdout + good.stderr
    assert good.stdout.count("Signature Verified Successfully") == 1
    sign_by_another(tmp_path)
    assert typed().returncode != 0


def sign_by_another(tmp_path: Path) -> None:
    from record.archive.bag import BagFile
    from record.archive.signing import signed as sign

    bag = tmp_path / "bag"
    tags = BagFile.of("tagmanifest-sha256.txt", (bag / "tagmanifest-sha256.txt").read_bytes())
    for file in sign([tags], make_key(tmp_path / "thief", "of", b"\7" * 32)):
        (bag / file.path).write_bytes(file.read())


def test_a_restored_copy_tells_for_ever_who_signed_what_it_reserves(signed, tmp_path):
    told = signed("unpack", "bag", record="copy")
    assert "all of the bag was signed by of: good" in told
    assert counts(tmp_path / "copy")
    assert "Signed with all of its bag by of: good" in signed("verify", record="copy")


def unsigned(bag: Path) -> None:
    shutil.rmtree(bag / "signature")


HARM = {
    "what is reserved": lambda bag: only(bag / "data" / "reserved").write_bytes(
        freed(only(bag / "data" / "reserved").read_bytes())
    ),
    "the README": lambda bag: (bag / "README.txt").write_text("All is well.\n"),
    "a table for spreadsheets": lambda bag: (bag / "data/csv/valve.csv").write_text("tag\n"),
}


@pytest.mark.parametrize("harm", HARM.values(), ids=HARM)
def test_what_was_changed_under_new_manifests_is_told_and_refused(signed, tmp_path, harm):
    harm(tmp_path / "bag")
    made_anew(tmp_path / "bag")
    with pytest.raises(Refused, match=r"signature/signature\.bin: the signature is not over"):
        signed("unpack", "bag", record="copy")
    assert not (tmp_path / "copy").exists()


def test_a_bag_signed_anew_by_a_key_that_nobody_introduced_is_refused(signed, tmp_path):
    HARM["what is reserved"](tmp_path / "bag")
    made_anew(tmp_path / "bag")
    sign_by_another(tmp_path)
    with pytest.raises(Refused, match=r"signature/signature\.bin: nobody introduced this key"):
        signed("unpack", "bag", record="copy")


@pytest.mark.parametrize("name", ["key.pem", "signature.bin"])
def test_half_a_signature_is_none(signed, tmp_path, name):
    (tmp_path / "bag" / "signature" / name).unlink()
    with pytest.raises(Refused, match=f"signature/{name}: it is missing"):
        signed("unpack", "bag", record="copy")


def test_a_bag_whose_signature_was_taken_off_says_that_it_had_one(signed, tmp_path):
    unsigned(tmp_path / "bag")
    assert "nobody signed the bag" in signed("unpack", "bag", record="copy")
    assert not counts(tmp_path / "copy")
    with pytest.raises(AssertionError, match="the signature is gone or unreadable: everything"):
        signed("verify", record="copy")


def freely(place: Path) -> None:
    path = only(place / "reserved")
    path.write_bytes(freed(path.read_bytes()))


def freely_and_unsigned(place: Path) -> None:
    path = only(place / "reserved")
    path.write_bytes(freed(path.read_bytes(), signer=""))


def with_manifests_anew(place: Path, *, tags: bool = True) -> None:
    """The kept manifests made to fit, the second too or not: only the signature tells."""
    freely(place)
    path, file = only(place / "packed"), only(place / "reserved")
    proof = json.loads(path.read_bytes())
    digest = hashlib.sha256(file.read_bytes()).hexdigest()
    before = hashlib.sha256(proof["manifest"].encode()).hexdigest()
    proof["manifest"] = re.sub(r"\w{64}(?=  data/reserved/)", digest, proof["manifest"])
    after = hashlib.sha256(proof["manifest"].encode()).hexdigest()
    if tags:
        proof["tag_manifest"] = proof["tag_manifest"].replace(before, after)
    path.write_bytes(json.dumps(proof).encode())


AFTER = {
    "what is reserved": (freely, "it is not what of signed"),
    "what is reserved, as if nobody had signed": (freely_and_unsigned, "it is not what of signed"),
    "the manifest too": (
        lambda place: with_manifests_anew(place, tags=False),
        "it is not what of signed",
    ),
    "both manifests too": (with_manifests_anew, "the signature is not over"),
    "the signature gone": (lambda place: only(place / "packed").unlink(), "signature is gone"),
    "the signature no signature": (
        lambda place: only(place / "packed").write_bytes(b"{}"), "gone or unreadable",
    ),
}  # fmt: skip


@pytest.mark.parametrize(("harm", "says"), AFTER.values(), ids=AFTER)
def test_what_was_changed_in_the_copy_afterwards_reserves_all_and_is_named(
    signed, tmp_path, harm, says
):
    signed("unpack", "bag", record="copy")
    harm(tmp_path / "copy")
    assert not counts(tmp_path / "copy")
    with pytest.raises(AssertionError, match=f"reserved/.*{says}.*: everything is reserved"):
        signed("verify", record="copy")


def test_both_files_written_anew_and_unsigned_are_told_as_unsigned(signed, tmp_path):
    """Nothing in the copy can show it then; that nobody signed it is said."""
    signed("unpack", "bag", record="copy")
    freely_and_unsigned(tmp_path / "copy")
    only(tmp_path / "copy" / "packed").unlink()
    told = signed("verify", record="copy")
    assert "Nobody signed it (pack --as)" in told and "by of: good" not in told


def test_a_signature_comes_along_when_the_lines_of_a_bag_are_merged(signed, tmp_path):
    signed("init", record="empty")
    signed("merge", "bag/data", record="empty")
    assert "Signed with all of its bag by of: good" in signed("verify", record="empty")
    signed("init", record="third")
    signed("merge", "empty", record="third")
    assert "Signed with all of its bag by of: good" in signed("verify", record="third")


def test_lines_merged_from_a_bag_that_was_changed_say_at_once_that_all_is_reserved(
    signed, tmp_path
):
    HARM["what is reserved"](tmp_path / "bag")
    signed("init", record="empty")
    assert "it is not what of signed: everything is reserved" in signed(
        "merge", "bag/data", record="empty"
    )


def test_a_key_given_up_since_is_in_doubt_and_one_given_up_before_signs_nothing(signed, tmp_path):
    signed("unpack", "bag", record="copy")
    signed("writer", "of", "--give-up", "--because", "lost")
    with pytest.raises(LogFault, match="count for nothing in this bag: given up before"):
        signed("pack", "other", "--as", "of")
    signed("pack", "later", "--for", "technician")
    signed("merge", "later/data", record="copy")
    told = signed("verify", record="copy")
    assert "Signed with all of its bag by of: order not known (given up since" in told


def test_a_key_that_the_copy_would_not_know_signs_nothing(here, tmp_path, monkeypatch):
    monkeypatch.setenv("ASBURIED_CONFIG", str(tmp_path / "keys"))
    here("writer", "of")
    with pytest.raises(LogFault, match="nobody introduced this key"):
        here("pack", "bag", "--as", "of")
    assert not (tmp_path / "bag").exists()


def test_the_owners_bag_is_signed_too_and_keeps_nothing_of_it(signed, tmp_path):
    signed("pack", "whole", "--as", "of")
    assert "all of the bag was signed by of: good" in signed("unpack", "whole", record="again")
    assert not (tmp_path / "again" / "packed").exists()
    (tmp_path / "whole" / "README.txt").write_text("All is well.\n")
    made_anew(tmp_path / "whole")
    with pytest.raises(Refused, match="the signature is not over"):
        signed("unpack", "whole", record="third")


def test_the_same_record_and_key_give_the_same_bag(signed, tmp_path):
    signed("pack", "again", "--for", "technician", "--as", "of")
    for path in sorted((tmp_path / "bag").rglob("*")):
        if path.is_file():
            other = tmp_path / "again" / path.relative_to(tmp_path / "bag")
            assert path.read_bytes() == other.read_bytes()
