"""The engine record file: read, check, write back without disturbing what it did not touch."""

from lapwright.record.blank import blank_record
from lapwright.record.changing import change_record
from lapwright.record.opening import open_record, read_record
from lapwright.record.problem import OpenedRecord, Problem
from lapwright.record.saving import save_record
from lapwright.record.schema import record_schema

__all__ = [
    "OpenedRecord",
    "Problem",
    "blank_record",
    "change_record",
    "open_record",
    "read_record",
    "record_schema",
    "save_record",
]
