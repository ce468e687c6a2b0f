"""Problems of a record as they are printed."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, TextIO

if TYPE_CHECKING:
    from lapwright.job.records import OpenedRecord


def print_problems(record: OpenedRecord, *, to: TextIO | None = None) -> None:
    """Print every problem on a line of its own: file, line, what is wrong, and what to write instead."""
    out = sys.stderr if to is None else to
    for problem in record.problems:
        place = f"{record.source}:{problem.line}" if problem.line else record.source
        print(f"{place}: {problem.severity}: {problem.message}", file=out)
        if problem.instead:
            print(f"    {problem.instead}", file=out)
