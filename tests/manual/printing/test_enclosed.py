"""The record inside the owner's PDF, taken out by another program, and nobody else's."""

import csv
import hashlib
import html
import io
import re
import subprocess

import pikepdf
import pytest

from manual.printing.enclosed import enclosed
from record.facts import READERS
from tests.manual.books import entries
from tests.manual.printed import edition


@pytest.fixture(scope="module")
def taken_out(tmp_path_factory):
    """Every file in the owner's PDF, as poppler takes it out."""
    place = tmp_path_factory.mktemp("taken")
    (place / "out").mkdir()
    (place / "manual.pdf").write_bytes(edition().pdf)
    subprocess.run(
        ["pdfdetach", "-saveall", "-o", place / "out", place / "manual.pdf"],
        check=True,
        capture_output=True,
    )
    return {file.name: file.read_bytes() for file in (place / "out").iterdir()}


def test_every_line_of_the_record_is_in_it_as_it_was_sealed(taken_out):
    lines = set(taken_out["links.jsonl"].splitlines(keepends=True))
    told = set(taken_out["contents.jsonl"].splitlines(keepends=True))
    assert lines == {entry.link_line for entry in entries()}
    assert told == {entry.content_line for entry in entries()}


def test_it_carries_the_checkpoint_that_is_printed_in_it(taken_out):
    printed = edition().book.point.hash
    assert hashlib.sha256(taken_out["checkpoint.txt"]).hexdigest() == printed


def test_each_kind_is_a_table_of_its_own(taken_out):
    [valve] = csv.DictReader(io.StringIO(taken_out["csv-valve.csv"].decode()))
    assert (valve["about"], valve["type"]) == ("CV-1", "check")
    kinds = {entry.content.kind for entry in entries()}
    assert {f"csv-{kind}.csv" for kind in kinds} <= taken_out.keys()


def test_each_is_said_to_be_what_it_is():
    with pikepdf.open(io.BytesIO(edition().pdf)) as pdf:
        said = {str(f.UF): (str(f.EF.F.Subtype), str(f.AFRelationship)) for f in pdf.Root.AF}
        names = [str(name) for name in list(pdf.Root.Names.EmbeddedFiles.Names)[::2]]
        assert all(str(each.Desc) for each in pdf.Root.AF)
    assert said["links.jsonl"] == ("/application/json", "/Source")
    assert said["csv-valve.csv"] == ("/text/csv", "/Data")
    assert names == sorted(names), "a name tree is sorted (ISO 32000-1, 7.9.6; from memory)"


def test_a_readers_edition_has_no_file_in_it():
    with pikepdf.open(io.BytesIO(edition("technician").pdf)) as pdf:
        assert "/AF" not in pdf.Root
        assert not list(pdf.attachments)
    assert enclosed(entries(), "owner")
    assert [enclosed(entries(), reader) for reader in READERS if reader != "owner"] == [()] * 3


def test_the_cards_have_no_file_in_them():
    with pikepdf.open(io.BytesIO(edition().cards)) as pdf:
        assert not list(pdf.attachments)


def test_the_commands_printed_in_it_check_it_with_ordinary_tools(tmp_path):
    """As a person types them: what each prints is held against the page it stands on."""
    page = edition().html.decode()
    told = page.partition(">The record inside the PDF</h2>")[2].partition("</section>")[0]
    take, check, head = map(html.unescape, re.findall(r"<code>(.*?)</code>", told, re.DOTALL))
    (tmp_path / "FILE.pdf").write_bytes(edition().pdf)

    def typed(command):
        ran = subprocess.run(command, shell=True, cwd=tmp_path, check=True, capture_output=True)
        return ran.stdout.decode().split()[:1]

    typed(take)
    assert typed(check) == [edition().book.point.hash]
    for writer, _, last in edition().book.point.heads:
        assert typed(head.replace("WRITER", writer)) == [last]
        assert " ".join(last[at : at + 4] for at in range(0, 64, 4)) in page


def test_a_reader_is_not_told_of_files_that_their_copy_has_not():
    assert "pdfdetach" in edition().html.decode()
    assert "pdfdetach" not in edition("technician").html.decode()
