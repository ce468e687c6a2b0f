"""The README tells the job first, then the two commands, then use with its real answers."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.house.reading import TOP

README = (TOP / "README.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"^```[a-z-]*\n(.*?)^```", README, re.MULTILINE | re.DOTALL)
SHELL = [block for block in BLOCKS if re.search(r"^\$ lapwright ", block, re.MULTILINE)]


def split_shell(block: str) -> list[tuple[str, str]]:
    """The commands of a block, each with what is printed under it."""
    parts = re.split(r"^\$ (.*)\n", block, flags=re.MULTILINE)
    assert not parts[0].strip(), "an answer without its command"
    return list(zip(parts[1::2], parts[2::2], strict=True))


def run_line(line: str, folder: Path) -> str:
    """What the installed program prints for a line of the README, on both channels."""
    path = os.pathsep.join([str(Path(sys.executable).parent), os.environ["PATH"]])
    env = {"PATH": path, "HOME": str(folder), "LANG": "C.UTF-8", "LC_ALL": "C.UTF-8"}
    done = subprocess.run(
        ["/bin/sh", "-c", f"{line} 2>&1"], cwd=folder, env=env, stdout=subprocess.PIPE, encoding="utf-8", timeout=60,
        check=False,
    )  # fmt: skip
    return done.stdout


def test_the_first_paragraph_tells_the_job() -> None:
    title, paragraph, *_ = README.split("\n\n")
    assert title.strip() == "# lapwright"
    assert 30 <= len(paragraph.split()) <= 120
    for word in ("steam engine", "valve", "wrong", "card"):
        assert word in paragraph, word


def test_the_two_commands_stand_first_among_the_blocks() -> None:
    assert "make demo" in BLOCKS[0]
    assert "make test" in "".join(BLOCKS[:2])
    assert README.index("make demo") < README.index("make test") < README.index("$ lapwright ")


@pytest.mark.journey
@pytest.mark.parametrize("block", SHELL or [""], ids=range(len(SHELL or [""])))
def test_what_the_readme_prints_is_what_is_printed(block: str, tmp_path: Path) -> None:
    assert block, "the README shows no use"
    shutil.copytree(TOP / "examples", tmp_path / "examples")
    for line, printed in split_shell(block):
        assert run_line(line, tmp_path).strip() == printed.strip(), line


def test_every_link_inside_the_repository_leads_somewhere() -> None:
    for page in [*TOP.glob("*.md"), *(TOP / "docs").rglob("*.md")]:
        for target in re.findall(r"\]\(([^)#\s]+)", page.read_text(encoding="utf-8")):
            assert "://" in target or (page.parent / target).exists(), f"{page.relative_to(TOP)} points to {target}"
