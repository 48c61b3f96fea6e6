"""Entries of a newer version."""

from msgspec.structs import replace

from record.checks import every_entry_read as rule
from record.checks import ready
from record.entry import seal
from record.readers import look
from tests.record.building import entries_of
from tests.record.checks.ground import TRENCH, against, sheets


def held(about, body=None, kind="x-ray-taken"):
    """Findings of the rule where one more entry, of a kind nobody knows yet, ends ld's chain."""
    entries = entries_of(*sheets(TRENCH))
    last = entries[-1]
    content = replace(last.content, kind=kind, about=about, body=body or {})
    more = seal(
        content,
        site=last.link.site,
        writer="ld",
        seq=last.link.seq + 1,
        recorded=last.link.recorded,
        prev=last.hash,
        salt=bytes(16),
    )
    found = ready(look((*entries, more)), "FILL").findings
    return [finding for finding in found if finding.rule == rule.RULE.word]


def test_a_record_read_whole_is_not_held():
    assert against(rule, TRENCH) == []


def test_an_entry_of_an_unknown_kind_about_it_holds():
    [found] = held("AIR-IN")
    assert (found.about, found.sure, found.stops) == ("AIR-IN", "cannot be told", True)
    assert "x-ray-taken" in found.says


def test_one_about_a_station_or_that_only_names_it_holds_too():
    assert [one.about for one in held("AIR-IN/2")] == ["AIR-IN"]
    assert [one.about for one in held("A", {"tags": ["CV-1", "Z-9"]})] == ["CV-1"]


def test_one_about_something_else_does_not():
    assert held("A", {"tags": ["Z-9"]}) == []


def test_a_value_of_an_unknown_form_holds():
    [found] = held("AIR-IN", {"size": {"from": "1 m", "to": "2 m"}}, kind="run")
    assert "size is unread" in found.says
