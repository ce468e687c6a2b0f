"""The engine record file: read, check, write back without disturbing what it did not touch."""

from lapwright.record.opening import open_record, read_record
from lapwright.record.problem import OpenedRecord, Problem

__all__ = ["OpenedRecord", "Problem", "open_record", "read_record"]
