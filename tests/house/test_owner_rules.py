"""Nothing stands in the repository that does not belong to the project.

The forbidden words are written with a ~ somewhere inside, so that this file does not hold them itself.
"""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path

import pytest

from tests.house.reading import TOP

CODE = {".py", ".js", ".css", ".html", ".typ", ".sh", ".toml", ""}

EVERYWHERE = {
    "a path of the machine it was written on": "/(?:wo~rk|t~mp|fa~rm|ro~ot|ho~me)/[a-z]|sha~red/",
    "a word about how it was written": r"(?i:seed doc~ument|\btran~script\b|\bl~lm\b|language mo~del)|\bA~I\b",
    "a registry's address": r"(?i:index-u~rl|py~pi\b|python~hosted|npm~js|crates\.i~o|anaconda\.o~rg)",
    "a download's address": r"\"resolved\": *\"http|https?://[^ \"]*/(?:simple|packages)/",
}
IN_CODE = {
    "work left over": r"\bTO~DO\b|\bFIX~ME\b|\bXX~X\b|NotImple~mentedError|pa~ss  *# *st~ub",
    "a test that is let off": r"xf~ail|pytest\.sk~ip|mark\.sk~ip|importor~skip|unittest\.mo~ck",
    "a check that is switched off for a whole file": r"(?m)^# *(?:ru~ff: noqa|my~py: ignore-errors)",
}


def list_files() -> list[Path]:
    """The files under version control and the new ones that are not ignored; without one, all that is not made."""
    git = shutil.which("git")
    if git and (TOP / ".git").exists():
        command = [git, "ls-files", "-z", "--cached", "--others", "--exclude-standard"]
        done = subprocess.run(command, cwd=TOP, capture_output=True, encoding="utf-8", check=True)
        paths = [TOP / name for name in done.stdout.split("\0") if name]
    else:
        paths = [path for path in TOP.rglob("*") if not is_made(path)]
    return [path for path in paths if path.is_file()]


def is_made(path: Path) -> bool:
    """Whether a file is made by `make` or a cache."""
    parts = path.relative_to(TOP).parts
    return any(part in {".venv", "out", "dist", "build", ".git", "__pycache__"} for part in parts) or any(
        part.startswith(".") and part.endswith(("_cache", ".hypothesis", ".benchmarks")) for part in parts
    )


def read_text(path: Path) -> str:
    """The text of a file; what is no text is empty."""
    try:
        return path.read_bytes().decode("utf-8")
    except UnicodeDecodeError:
        return ""


#: Where a machine has no browser, the tests that want one say so and stand aside: one place, and no other.
WITHOUT_A_BROWSER = TOP / "tests" / "browser" / "conftest.py"


def rules_for(path: Path) -> dict[str, str]:
    """What is forbidden in a file: some things everywhere, some in code."""
    rules = EVERYWHERE | IN_CODE if path.suffix in CODE else EVERYWHERE
    return {what: rule for what, rule in rules.items() if path != WITHOUT_A_BROWSER or what != "a test that is let off"}


def find_hits(patterns: dict[str, str], text: str) -> list[str]:
    """What is found of each forbidden thing, with its line."""
    return [
        f"{what}, line {text.count(chr(10), 0, hit.start()) + 1}: {hit[0]}"
        for what, pattern in patterns.items()
        for hit in re.finditer(pattern.replace("~", ""), text)
    ]


def test_no_file_holds_what_is_not_the_projects() -> None:
    files = list_files()
    assert TOP / "pyproject.toml" in files
    hits = [f"{path.relative_to(TOP)}: {hit}" for path in files for hit in find_hits(rules_for(path), read_text(path))]
    assert hits == []


def test_the_lock_pins_every_package_by_hash_and_names_no_address() -> None:
    lock = (TOP / "requirements.lock").read_text(encoding="utf-8")
    assert "://" not in lock
    assert "--find-links" not in lock
    packages = re.split(r"\n(?=[a-z])", lock)
    assert len(packages) > 10
    for package in packages:
        assert re.match(r"[a-z0-9-]+==\S+ ", package), package[:60]
        assert "--hash=sha256:" in package, package[:60]


@pytest.mark.parametrize(
    "text",
    [
        "see /wo~rk/main",
        "open('/t~mp/x')",
        "--index-u~rl x",
        "# TO~DO: later",
        "raise NotImple~mentedError",
        "@pytest.mark.xf~ail",
        "pytest.sk~ip('later')",
        "written by an A~I",
        "from https://example.org/sim~ple/ruff",
    ],
)
def test_what_is_forbidden_is_noticed(text: str) -> None:
    assert find_hits(EVERYWHERE | IN_CODE, text.replace("~", ""))
    assert not find_hits(EVERYWHERE | IN_CODE, text)
