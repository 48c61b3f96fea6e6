"""The catalogue of findings: every rule has its sheet, and the words are those in the files."""

import pytest

from record.checks import HANDOVER_RULES, RULES
from tests.record.checks.catalogue import SHEETS, findings, words

#: No sheet makes these: an entry of a newer program, two tablets that had not seen each other, and
#: what a picture's camera claims.
NO_SHEET = {
    "every entry read",
    "no two statements differ",
    "camera agrees with its sheet",
}


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
def test_what_is_printed_is_what_stands_in_the_catalogue(path):
    assert path.with_suffix(".txt").read_text(encoding="utf-8") == words(path)


def test_every_rule_is_in_the_catalogue():
    met = {finding.rule for path in SHEETS for finding in findings(path)}
    assert {rule.word for rule in (*RULES, *HANDOVER_RULES)} - met <= NO_SHEET


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
def test_every_finding_is_whole(path):
    """Rule, what it is about, what is said, why it matters, what clears it."""
    for finding in findings(path):
        assert finding.rule and finding.about and finding.says and len(finding.why) > 40
        assert finding.clears and all(line.strip() for line in finding.clears)
        assert finding.sure in ("certain", "cannot be told")
        assert not finding.says.endswith(".")
