"""What is wrong: one kind of fault to a file, each with evidence, size and doubt."""

from lapwright.findings.finding import CODES, PART_CODES, SEVERITIES, Finding
from lapwright.findings.judge import find_faults

__all__ = ["CODES", "PART_CODES", "SEVERITIES", "Finding", "find_faults"]
