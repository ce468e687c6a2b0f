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
    """Two engines to each injection: what is found in the faulty cylinder, and the best cure in full."""
    parts = []
    for code, inject in INJECTIONS.items():
        for seed in (1, 2):
            injected = inject(Random(f"{code} {seed}"))
            findings, sizes = find_faults(injected.engine), injected.engine.cylinders[0]
            lines = [f"{code} ({sizes.kind} valve, {sizes.admission} admission)"]
            for finding in findings:
                told = f"instead of {finding.instead_of}" if finding.instead_of else finding.severity
                lines += [f"* {finding.title} ({told})", finding.because, finding.effect, finding.check_next]
            for cure in find_cures(injected.engine, findings)[:1]:
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
