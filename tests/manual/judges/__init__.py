"""What looks at a manual from outside: a browser with axe-core, and an HTML validator."""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
from collections import Counter
from html.parser import HTMLParser
from pathlib import Path

HERE = Path(__file__).parent
PACKAGES = Path(sys.prefix, "judges")  # .ci/prepare puts them there


def looked_at(file, word=None):
    """Return what a headless browser saw of an HTML file, and how it found a word in it."""
    browser = shutil.which("chromium") or shutil.which("chromium-browser") or "google-chrome"
    words = [word] if word else []
    return json.loads(_node("look.mjs", str(PACKAGES), browser, str(file), *words))


def faults_of_html(file):
    """
    Return what the HTML validator finds wrong with a file, a line each.

    An id that is there twice is counted here: the validator looks for each through the whole file.
    """
    done = subprocess.run(
        [PACKAGES / "node_modules/.bin/html-validate", "--config", HERE / "htmlvalidate.json",
         "--formatter", "text", file],
        cwd=HERE, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode in (0, 1) and not done.stderr, done.stderr
    found = [line.removeprefix(f"{file}:") for line in done.stdout.splitlines()]
    ids = _Ids()
    ids.feed(Path(file).read_text(encoding="utf-8"))
    return [*found, *(f"id {id_!r} is there {n} times" for id_, n in ids.found.items() if n > 1)]


class _Ids(HTMLParser):
    def __init__(self):
        super().__init__()
        self.found = Counter()

    def handle_starttag(self, tag, attrs):
        self.found.update(value for name, value in attrs if name == "id")


def _node(*command):
    done = subprocess.run(
        ["node", *command], cwd=HERE, capture_output=True, text=True, check=False, timeout=900
    )
    assert done.returncode == 0, done.stderr
    return done.stdout
