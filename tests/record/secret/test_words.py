"""A passphrase is asked for once, and what opened one record is tried on the next."""

from pathlib import Path

from record.secret import Words, asked, asking

HERE, THERE = Path("here"), Path("there")


def test_words_that_opened_one_record_come_first_at_the_next_and_are_not_offered_twice():
    said = Words(lambda record: iter([f"of {record}", "common"]))
    assert list(said.offered(HERE)) == ["of here", "common"]
    said.opens("common")
    assert list(said.offered(THERE)) == ["common", "of there"]


def test_nobody_is_asked_further_than_needed():
    def ask(_):
        yield "first"
        raise AssertionError("asked again")

    assert next(Words(ask).offered(HERE)) == "first"


def test_where_nothing_was_said_nobody_is_asked():
    asking(Words(lambda _: iter(["one"])))
    assert list(asked().offered(HERE)) == ["one"]
    asking(None)
    assert list(asked().offered(HERE)) == []


def test_words_are_no_part_of_what_is_printed_of_them():
    said = Words(lambda _: iter([]), opened=["seven dry oaks"], keys={b"salt": b"key of it"})
    assert "oaks" not in repr(said) and "key of it" not in repr(said)
