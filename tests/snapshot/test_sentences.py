"""What is said of every kind of fault, and what is to be done about it, reads as it was last read.

`UPDATE_SNAPSHOTS=1` writes the sentences anew; read them then as a machinist would.
"""

from __future__ import annotations

import os
from pathlib import Path
from random import Random

from lapwright.cures import find_cures
from lapwright.findings import find_faults
from tests.property.faults import INJECTIONS

KEPT = Path(__file__).parent / "sentences.txt"


def write_sentences() -> str:
    """One engine to each injection: its first finding and the best cure in full."""
    parts = []
    for code, injections in INJECTIONS.items():
        for inject in injections:
            engine = inject(Random(21))
            findings = find_faults(engine)
            first = findings[0]
            lines = [
                f"{code} ({inject.__name__}): {first.severity}",
                first.title,
                first.because,
                first.effect,
                first.check_next,
            ]
            for cure in find_cures(engine, findings)[:1]:
                lines += [f"-> {cure.title} ({cure.work})", *cure.steps]
            parts.append("\n".join(lines))
    return "\n\n".join(parts) + "\n"


def test_every_sentence_reads_as_it_was_last_read() -> None:
    written = write_sentences()
    if os.environ.get("UPDATE_SNAPSHOTS"):
        KEPT.write_text(written, encoding="utf-8")
    assert written == KEPT.read_text(encoding="utf-8")


def test_no_sentence_shows_a_nothing_with_a_sign() -> None:
    text = KEPT.read_text(encoding="utf-8")
    for slip in ("-0.00 mm", "+0.00 mm of", " None", "nan", "  "):
        assert slip not in text
