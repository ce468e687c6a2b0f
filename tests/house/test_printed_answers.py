"""What the manual shows of the terminal is what the program prints now."""

from __future__ import annotations

import re
import shlex
import subprocess
import sys

import pytest

from tests.house.reading import TOP

DOCS = TOP / "docs"
#: A command and what it prints; a line of three dots stands for what is left out.
SHOWN = re.compile(r"^```\nlapwright ([^\n]+)\n```\n\nprints[^\n]*\n\n```\n(.*?)^```", re.MULTILINE | re.DOTALL)
BLOCKS = [block for page in sorted(DOCS.rglob("*.md")) for block in SHOWN.findall(page.read_text(encoding="utf-8"))]


def find_missing(shown: str, printed: str) -> list[str]:
    """The first stretch of what is shown that is not printed, or not after the one before it."""
    place = 0
    for stretch in re.split(r"^\.\.\.\n", shown, flags=re.MULTILINE):
        found = printed.find(stretch, place)
        if found < 0:
            return [stretch]
        place = found + len(stretch)
    return []


def test_a_stretch_that_is_not_printed_is_noticed() -> None:
    assert find_missing("a\n...\nc\n", "a\nb\nc\n") == []
    assert find_missing("a\n...\nd\n", "a\nb\nc\n") == ["d\n"]
    assert find_missing("c\n...\na\n", "a\nb\nc\n") == ["a\n"]


@pytest.mark.journey
@pytest.mark.parametrize(("command", "shown"), BLOCKS, ids=[command for command, _ in BLOCKS])
def test_a_command_prints_what_stands_under_it(command: str, shown: str) -> None:
    words = [sys.executable, "-m", "lapwright", *shlex.split(command)]
    done = subprocess.run(words, cwd=TOP / "examples", capture_output=True, encoding="utf-8", timeout=60, check=False)
    assert find_missing(shown, done.stdout + done.stderr) == []
