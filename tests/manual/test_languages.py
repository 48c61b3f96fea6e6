"""A translation is a folder: what it has is said in it, what it lacks in English."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path

import pytest

from manual import chapter
from manual.asks import draft
from manual.bound.editions import editions, last_for
from manual.languages import (
    LanguageFault,
    english,
    language,
    plural,
    say,
    shipped,
    speaking,
    spoken,
)
from manual.languages.terms import every_term
from tests.manual.issuing import issued, without_press


def folder(tmp_path: Path, files: dict[str, str], code: str = "cy") -> str:
    for name, text in files.items():
        file = tmp_path / code / name
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, encoding="utf-8")
    return str(tmp_path / code)


def test_english_is_whole_and_spoken_when_nobody_says_otherwise():
    assert spoken() is english() is language("en")
    assert shipped() == ("en",)
    assert "01-emergency.md" in english().chapters
    assert "sand-below.toml" in english().drafts
    assert english().lacks == ()


def test_a_translated_chapter_stands_where_the_english_one_stood(tmp_path: Path):
    welsh = language(folder(tmp_path, {"chapters/05-valves.md": "# Falfiau\n"}))
    names = [each.name for each in chapter.chapters()]
    with speaking(welsh):
        told = {each.name: each.text for each in chapter.chapters()}
    assert list(told) == names
    assert told["05-valves.md"] == "# Falfiau\n"
    assert told["06-equipment.md"] == english().chapters["06-equipment.md"]
    assert chapter.chapters()[5].text != "# Falfiau\n", "English is spoken again afterwards"


def test_a_translated_draft_is_the_one_that_is_filled_in(tmp_path: Path):
    text = english().drafts["get-out.toml"].replace('sign = "', 'sign = "Cymraeg: ', 1)
    welsh = language(folder(tmp_path, {"drafts/get-out.toml": text}))
    with speaking(welsh):
        assert draft.for_event("get out").sign.startswith("Cymraeg: ")
    assert not draft.for_event("get out").sign.startswith("Cymraeg: ")


def test_what_a_folder_lacks_is_told_by_name(tmp_path: Path):
    welsh = language(folder(tmp_path, {"chapters/05-valves.md": "# Falfiau\n"}))
    assert "chapters: 05-valves.md" not in welsh.lacks
    assert "chapters: 06-equipment.md" in welsh.lacks
    assert (
        len(welsh.lacks)
        == sum(
            len(held)
            for held in (
                *(english().words, english().record.said, every_term()),
                *(english().chapters, english().drafts, english().pages),
            )
        )
        - 1
    )


def test_all_that_is_wrong_with_a_folder_is_said_at_once(tmp_path: Path):
    key = next(key for key, words in english().words.items() if "{" in words)
    table, _, name = key.rpartition(".")
    words = f'[{table}]\n{name} = "dim byd"\n\n[nothing]\nat_all = "x"\n'
    asked = folder(tmp_path, {"words.toml": words, "chapters/99-more.md": "# Mwy\n"})
    with pytest.raises(LanguageFault) as said:
        language(asked)
    assert f"cy/words.toml: {key} puts in nothing; write it with {{" in str(said.value)
    assert "cy/words.toml: nothing.at_all: English has nothing of that name" in str(said.value)
    assert "cy/chapters/99-more.md: English has nothing of that name" in str(said.value)


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        ("kw", 'there is no language "kw"; there is en, or name a folder'),
        ("Welsh words", '"Welsh words" is no language tag; name the folder such as de or pt-BR'),
    ],
)
def test_a_language_nobody_has_is_said(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, asked: str, words: str
):
    monkeypatch.chdir(tmp_path)
    Path("Welsh words").mkdir()
    with pytest.raises(LanguageFault) as said:
        language(asked)
    assert words in str(said.value)


def test_a_file_of_words_that_cannot_be_read_is_said_with_its_line(tmp_path: Path):
    with pytest.raises(LanguageFault, match=r"cy/words\.toml: .*line 2"):
        language(folder(tmp_path, {"words.toml": "[a]\nb = \n"}))


@pytest.mark.parametrize(
    ("code", "said"), [("en", "1 day, 2 days, 5 days"), ("pl", "1 dzień, 2 dni, 5 dni razem")]
)
def test_a_chapter_gives_a_word_in_every_form_its_language_has(code: str, said: str):
    """Polish has one, few and many (Unicode CLDR, Language Plural Rules)."""
    forms = {
        "en": 'one="day", other="days"',
        "pl": 'one="dzień", few="dni", many="dni razem", other="dnia"',
    }
    text = "{% for n in (1, 2, 5) %}{{ n }} {{ plural(n, FORMS) }}{{ ', ' if n < 5 }}{% endfor %}"
    one = chapter.Chapter("99-x.md", text.replace("FORMS", forms[code]))
    with speaking(replace(english(), code=code)):
        assert chapter.fill(one, {"plural": plural}) == said


def test_words_are_put_where_they_stand():
    key, words = next((k, w) for k, w in english().words.items() if w.count("{") == 1)
    slot = words[words.index("{") + 1 : words.index("}")]
    assert say(key, **{slot: "7 m"}) == words.replace(f"{{{slot}}}", "7 m")


def every_form(words: Mapping[str, str]) -> Iterator[tuple[str, str]]:
    """Yield words by key; a number of things in the further forms that Welsh has for it."""
    for key, said in words.items():
        yield key, said
        stem, _, form = key.rpartition(".")
        if form == "other" and f"{stem}.one" in words:
            yield from ((f"{stem}.{more}", said) for more in ("zero", "two", "few", "many"))


def translated(tmp_path: Path) -> str:
    """A translation of all words, each in the marks that say where it begins and ends."""
    tables: dict[str, list[str]] = {}
    for key, words in every_form(english().words):
        table, _, name = key.rpartition(".")
        said = json.dumps(f"«{words}»", ensure_ascii=False)
        tables.setdefault(table, []).append(f"{name} = {said}")
    text = "\n".join(f"[{table}]\n" + "\n".join(lines) for table, lines in tables.items())
    terms = '"not recorded" = "heb ei gofnodi"\n"check" = "atal"\n'
    return folder(tmp_path, {"words.toml": text, "terms.toml": terms})


def test_an_edition_in_a_translation_stands_beside_the_english_one(log, tmp_path, monkeypatch):
    without_press(monkeypatch)
    first = issued(log)
    with speaking(language(translated(tmp_path))):
        welsh = issued(log)
        assert last_for(editions(log.entries()), "owner", "cy").number == 2
    html = welsh.built.html.decode()
    assert '<html lang="cy">' in html
    assert "heb ei gofnodi" in html
    assert "«Search this manual»" in html
    assert 'content: "«" string(unit) " · edition " string(edition)' in html
    assert welsh.entry.content.body["language"] == "cy"
    assert welsh.entry.content.body["supersedes"] == "none"
    assert "language" not in first.entry.content.body
    assert last_for(editions(log.entries()), "owner").number == 1
    assert '<html lang="en">' in first.built.html.decode()


def test_whatever_a_drawing_says_is_said_in_the_translation(log, tmp_path, monkeypatch):
    """Its words stand in marks; what stands outside them is the record's: tags, names, numbers."""
    without_press(monkeypatch)
    with speaking(language(translated(tmp_path))):
        html = issued(log).built.html.decode()
    told = re.findall(r"<desc[^>]*>(.*?)</desc>", html, re.DOTALL)
    assert len(told) > 3
    for words in (each.replace("larder under the cot", "S-1") for each in told):
        outside = re.sub(r"«[^«»]*»", "", words)
        while outside != words:
            words, outside = outside, re.sub(r"«[^«»]*»", "", outside)
        assert not re.search(r"[a-z]{4,} [a-z]{2,} [a-z]{3,}", outside), outside
