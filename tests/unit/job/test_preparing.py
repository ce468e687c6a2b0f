"""Whether the running engine has to be made ready first: of a fresh copy yes, of one that has run no."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import lapwright
from lapwright.job.run.preparing import needs_preparing
from lapwright.job.run.stand import Asked
from tests.unit.job.trials import run

ASK = "from lapwright.job.run.preparing import needs_preparing; print(needs_preparing())"


def test_an_engine_that_has_run_is_ready() -> None:
    assert run("tern", Asked()).run.settled
    assert not needs_preparing()


def test_a_copy_that_never_ran_is_not(tmp_path: Path) -> None:
    package = Path(lapwright.__file__).parent
    shutil.copytree(package, tmp_path / "lapwright", ignore=shutil.ignore_patterns("__pycache__"))
    done = subprocess.run(
        [sys.executable, "-c", ASK], cwd=tmp_path, env={"PYTHONPATH": str(tmp_path)}, capture_output=True, check=True
    )
    assert done.stdout.strip() == b"True"
