"""Results as they are printed with `--json`."""

from __future__ import annotations

import json
import re
import sys
from typing import Any

#: A list of plain numbers, laid out one to a line; within a text there is never a real line break.
_NUMBERS = re.compile(r"\[\n\s+(-?\d[-+\d.eE,\s]*?)\n\s+\]")


def print_json(results: dict[str, Any]) -> None:
    """Print results as one JSON object, lists of numbers on one line; it never holds what is not a number."""
    text = json.dumps(results, indent=2, ensure_ascii=False, allow_nan=False)
    sys.stdout.write(_NUMBERS.sub(lambda found: f"[{' '.join(found[1].split())}]", text) + "\n")
