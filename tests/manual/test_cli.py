"""``asburied manual``, as it is typed: what it prints, where, and how it ends."""

from __future__ import annotations

import json
import re
import sys

import pytest

from manual import chapter
from manual.chapter import Chapter
from manual.cli import main
from record.log import Log, Office, handed_over, merge
from tests.manual.issuing import without_press
from tests.record.records import SITE, post_text, sheet


@pytest.fixture
def asburied(folder, monkeypatch, capsys):
    """Return a function that types a command upon the small shelter's record."""
    without_press(monkeypatch)
    monkeypatch.setenv("ASBURIED_RECORD", str(folder))
    monkeypatch.setenv("ASBURIED_NOW", "2031-06-02T12:00:00Z")
    monkeypatch.setenv("ASBURIED_SALT_SEED", "fern-bank")

    def type_(*words, status=0):
        monkeypatch.setattr(sys, "argv", ["asburied", *map(str, words)])
        with pytest.raises(SystemExit) as ended:
            main()
        out, err = capsys.readouterr()
        assert (ended.value.code or 0) == status, out + err
        assert "Traceback" not in err
        assert "fault of the program" not in err
        return out, err

    return type_


def test_an_edition_issued_is_told_file_by_file_and_its_copies_are_the_kept_files(
    asburied, folder, tmp_path
):
    out, err = asburied("manual", "issue", "--out", tmp_path / "copies")
    lines = out.splitlines()
    assert lines[0] == "Edition 1 (owner), recorded to 2031-05-15: of-1"
    named = {
        "pdf": ".pdf",
        "html": ".html",
        "calendar": ".ics",
        "emergency": "-emergency.html",
        "cards": "-cards.pdf",
    }
    for line, (name, suffix) in zip(lines[1:6], named.items(), strict=True):
        assert line == f"  {name:10}{tmp_path / 'copies' / 'fern-bank-edition-1-owner'}{suffix}"
    assert re.fullmatch("  checkpoint [0-9a-f]{64}", lines[6])
    kept = sorted(path.read_bytes() for path in (folder / "editions").iterdir())
    copies = sorted((tmp_path / "copies").iterdir())
    assert [path.name for path in copies] == [
        "fern-bank-edition-1-owner-cards.pdf",
        "fern-bank-edition-1-owner-emergency.html",
        "fern-bank-edition-1-owner.html",
        "fern-bank-edition-1-owner.ics",
        "fern-bank-edition-1-owner.pdf",
    ]
    assert sorted(path.read_bytes() for path in copies) == kept
    assert [path.name for path in copies if path.stat().st_mode & 0o077] == []
    assert err == ""  # stages are told on a terminal only


def test_stages_are_told_on_a_terminal(asburied, monkeypatch):
    monkeypatch.setattr("manual.cli._on_terminal", lambda: True)
    _, err = asburied("manual", "issue")
    assert re.findall(r"^  (\d) of 6  \w+", err, re.MULTILINE) == list("123456")


def test_nothing_new_is_said_and_is_no_failure(asburied):
    asburied("manual", "issue")
    out, _ = asburied("manual", "issue")
    assert out == "nothing was recorded since edition 1, which stands\n"
    out, _ = asburied("manual", "issue", "--again")
    assert out.startswith("Edition 2 (owner), recorded to 2031-06-02, supersedes 1: of-2\n")


def test_after_an_edition_the_record_is_whole_and_a_spoiled_file_is_told_by_its_entry(
    asburied, folder
):
    asburied("manual", "issue")
    out, _ = asburied("verify")
    assert out.startswith("All ")
    pdf = max((folder / "editions").glob("*.pdf"), key=lambda one: one.stat().st_size)
    pdf.write_bytes(b"%PDF another")
    out, _ = asburied("verify", status=1)
    assert f"of-1: its file editions/{pdf.name[:12]}… was changed" in out
    pdf.unlink()
    out, _ = asburied("verify", status=1)
    assert f"of-1: its file editions/{pdf.name[:12]}… is missing" in out


def test_editions_are_listed_with_what_stands_and_how_much_is_newer(asburied, folder):
    out, _ = asburied("manual", "list")
    assert out == "No edition was issued.\n"
    asburied("manual", "issue")
    asburied("manual", "issue", "--again")
    with Log.open(folder) as log:
        post_text(log, sheet("## valve CV-1\n\n- flow: in", day="2031-05-20", writer="ck"))
    out, _ = asburied("manual", "list")
    first, second = out.splitlines()
    assert re.fullmatch(r"edition 1  owner +recorded to 2031-05-15  superseded  \(of-1\)", first)
    assert second.startswith("edition 2  owner")
    assert second.endswith("stands; 1 entry since  (of-2)")


def test_the_list_for_programs_has_stable_keys_and_the_hashes_of_the_kept_files(asburied, folder):
    asburied("manual", "issue")
    out, _ = asburied("manual", "list", "--json")
    (one,) = json.loads(out)
    assert list(one) == [
        "edition",
        "reader",
        "language",
        "recorded_to",
        "superseded",
        "entries_since",
        "checkpoint",
        "pdf",
        "html",
        "calendar",
        "emergency",
        "cards",
        "entry",
    ]
    assert (one["edition"], one["superseded"], one["entries_since"]) == (1, False, 0)
    assert {path.stem for path in (folder / "editions").iterdir()} == {
        one["pdf"],
        one["html"],
        one["calendar"],
        one["emergency"],
        one["cards"],
    }


def test_chapters_that_can_all_be_written_pass_the_check(asburied, folder):
    for reader in ("owner", "trade"):  # who is told most, and least
        out, _ = asburied("manual", "check", "--reader", reader)
        first, *told, last = out.splitlines()
        assert (first, last) == ("Every chapter can be written.", "Nothing to mend.")
        assert any("blanks, as nobody recorded it: " in line for line in told)
    assert not (folder / "editions").exists()


def test_what_the_check_finds_is_told_by_page_and_the_status_says_so(asburied, monkeypatch):
    shipped = chapter.chapters()
    wrong = Chapter("99-x.md", '# X\n\n<span class="tag">CV-2</span>\n')
    monkeypatch.setattr(chapter, "chapters", lambda: (*shipped, wrong))
    out, _ = asburied("manual", "check", status=1)
    assert re.search(r"^page \d+: a tag that the record does not have: CV-2$", out, re.MULTILINE)
    assert out.endswith("1 to mend.\n")
    found = json.loads(asburied("manual", "check", "--json", status=1)[0])
    [one] = [each for each in found if each["stops"]]
    assert (one["rule"], one["line"]) == ("tag", "CV-2")
    assert one["page"] > 10 and "CV-1" in one["instead"]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("# X\n\n{{ site.nam }}\n", "99-x.md:3: a site has no field"),
        ("# X\n\n[[draw: site pln]]\n", '99-x.md:3: there is no drawing "site pln"'),
    ],
)
def test_a_spoiled_chapter_is_told_by_its_line_and_nothing_is_issued(
    asburied, monkeypatch, text, said
):
    shipped = chapter.chapters()
    monkeypatch.setattr(chapter, "chapters", lambda: (*shipped, Chapter("99-x.md", text)))
    _, err = asburied("manual", "check", status=1)
    assert err.startswith(said)
    _, err = asburied("manual", "issue", status=1)
    assert err.startswith(f"the manual was not issued: {said}")
    assert asburied("manual", "list")[0] == "No edition was issued.\n"


@pytest.mark.parametrize("command", ["issue", "check"])
def test_a_reader_nobody_knows_is_a_wrong_command(asburied, command):
    _, err = asburied("manual", command, "--reader", "neighbour", status=2)
    assert err.startswith('"neighbour" is not a reader; readers are owner, technician')


def test_a_writer_who_is_none_is_refused(asburied):
    _, err = asburied("manual", "issue", "--writer", "The Office", status=1)
    assert '"The Office" is not a writer' in err


@pytest.mark.parametrize("command", ["issue", "check"])
def test_an_empty_record_has_no_manual_and_says_what_to_do(asburied, tmp_path, command):
    Log.make(tmp_path / "bare").close()
    _, err = asburied("--record", tmp_path / "bare", "manual", command, status=1)
    assert "the record is empty; `asburied blank site TAG` prints its first sheet" in err


def test_a_record_whose_site_was_withdrawn_says_so(asburied, folder):
    gone = "## withdrawn\n\n- mends: ld-1\n- because: another site"
    with Log.open(folder) as log:
        post_text(log, sheet(gone, part="b"))
    for command in ("issue", "check"):
        _, err = asburied("manual", command, status=1)
        assert "the record has no site any more; state it again" in err


def test_a_reader_who_may_not_see_the_site_gets_no_copy_and_is_told_why(asburied, tmp_path):
    with Log.make(tmp_path / "shy") as log:
        post_text(log, SITE + "- readers: owner\n")
    asburied("--record", tmp_path / "shy", "manual", "check")
    shy = ("--record", tmp_path / "shy", "manual", "check", "--reader", "trade")
    _, err = asburied(*shy, status=1)
    assert err == 'the reader "trade" may not see the site, so no copy can be made\n'


def full(*_, **__):
    raise OSError(28, "No space left on device")


def test_a_full_disk_is_said_plainly_and_no_edition_is_recorded(asburied, monkeypatch):
    monkeypatch.setattr("record.log.folder.Folder.keep", full)
    _, err = asburied("manual", "issue", status=1)
    assert err == "No space left on device; nothing was recorded\n"
    assert asburied("manual", "list")[0] == "No edition was issued.\n"


def test_copies_that_cannot_be_put_down_do_not_undo_the_edition(asburied, tmp_path):
    (tmp_path / "taken").write_text("a file, no folder")
    out, err = asburied("manual", "issue", "--out", tmp_path / "taken", status=1)
    assert out.startswith("Edition 1 (owner)")
    assert str(tmp_path / "fern-bank" / "editions") in out
    assert "edition 1 was issued and is kept in the record" in err
    assert "nothing was recorded" not in err
    assert asburied("manual", "list")[0].startswith("edition 1  owner")


def test_what_came_between_two_editions_is_told_by_what_each_had_seen(asburied, folder, tmp_path):
    asburied("manual", "issue")
    with Log.open(folder) as log:
        post_text(log, sheet("## valve CV-1\n\n- flow: in", day="2031-05-20", writer="ck"))
    asburied("manual", "issue")
    with Log.open(folder) as log:
        post_text(log, sheet("## valve CV-1\n\n- flow: out", day="2031-05-21", writer="ck"))
    for pair in (("1", "2"), ("2", "1")):
        out, _ = asburied("manual", "compare", *pair, "--out", tmp_path / f"{pair[0]}.html")
        assert "to edition 2" in out and "entries: 1, about tags: 1" in out
        assert "CV-1\n  ck-1  valve: " in out and "ck-3" not in out
    assert "ck-1" in (tmp_path / "1.html").read_text(encoding="utf-8")
    out, _ = asburied("manual", "compare", "2", "2")
    assert "Nothing that this reader may see came between them" in out


def test_an_edition_that_is_not_there_is_told_with_those_that_are(asburied):
    asburied("manual", "issue")
    _, err = asburied("manual", "compare", "1", "7", status=1)
    assert "there is no edition 7; editions: 1" in err


def test_an_edition_issued_at_an_office_is_the_same_bytes_as_from_the_folder(
    asburied, folder, office_server, tmp_path, monkeypatch
):
    """One record in two places, one clock, one salt: every file of the edition is alike, and the
    office keeps them as the folder does."""
    office = Office(office_server.url(office_server.database()), "fern-bank")
    with Log.make(office) as log:
        merge(log, [handed_over(folder)], received="2031-06-02T12:00:00Z")
    asburied("manual", "issue", "--out", tmp_path / "folder")
    monkeypatch.setenv("ASBURIED_RECORD", str(office))
    out, _ = asburied("manual", "issue", "--out", tmp_path / "office")
    assert out.startswith("Edition 1 (owner), recorded to 2031-05-15: of-1")
    made = {
        at: {p.name: p.read_bytes() for p in (tmp_path / at).iterdir()}
        for at in ("folder", "office")
    }
    assert made["folder"] == made["office"] and len(made["office"]) > 3
    with Log.open(office) as log:
        issued = log.entries()[-1]
        assert issued.content is not None and issued.content.kind == "edition-issued"
        kept = log.files.found("editions", str(issued.content.body["html"]))
        assert kept is not None and kept.data in made["office"].values()
