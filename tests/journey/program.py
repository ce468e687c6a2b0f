"""The installed program, run as a stranger runs it: in an empty folder, with an empty HOME."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

TOP = Path(__file__).resolve().parents[2]
PROGRAM = Path(sys.executable).parent / "lapwright"


@dataclass(frozen=True)
class Answer:
    """What the program printed and how it ended."""

    status: int
    out: str
    err: str


def run(*words: str, folder: Path, typed: str = "") -> Answer:
    """Run the program in a folder and return its answer; no answer may ever hold a traceback."""
    home = folder / "home"
    home.mkdir(exist_ok=True)
    env = {"PATH": os.environ["PATH"], "HOME": str(home), "LANG": "C.UTF-8", "LC_ALL": "C.UTF-8"}
    done = subprocess.run(
        [str(PROGRAM), *words],
        cwd=folder,
        env=env,
        input=typed,
        capture_output=True,
        encoding="utf-8",
        timeout=60,
        check=False,
    )
    assert "Traceback" not in done.stderr + done.stdout, done.stderr
    return Answer(done.returncode, done.stdout, done.stderr)


def bring_example(name: str, folder: Path) -> str:
    """Copy a demo engine into the folder and return its file name."""
    shutil.copy(TOP / "examples" / f"{name}.toml", folder)
    return f"{name}.toml"


def list_files(folder: Path) -> set[str]:
    """The files that stand in the folder, the home left out."""
    return {str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file() and "home" not in path.parts}
