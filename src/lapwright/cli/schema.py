"""`lapwright schema`: the record's keys, for editors that complete and check TOML."""

from __future__ import annotations

import json


def run() -> None:
    """Print the JSON Schema of the engine record."""
    from lapwright.job.records import record_schema

    print(json.dumps(record_schema(), indent=2, ensure_ascii=False))
