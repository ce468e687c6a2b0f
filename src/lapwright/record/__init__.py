"""The engine record file: read, check, write back without disturbing what it did not touch."""

from lapwright.record.blank import blank_record
from lapwright.record.changing import change_record
from lapwright.record.comparing import Clash, KeyChange, Merged, compare_records, merge_records, read_key, read_written
from lapwright.record.dropping import drop_key
from lapwright.record.opening import open_record, read_record
from lapwright.record.placing import add_place, remove_place
from lapwright.record.problem import OpenedRecord, Problem
from lapwright.record.saving import save_record
from lapwright.record.schema import record_schema

__all__ = [
    "Clash",
    "KeyChange",
    "Merged",
    "OpenedRecord",
    "Problem",
    "add_place",
    "blank_record",
    "change_record",
    "compare_records",
    "drop_key",
    "merge_records",
    "open_record",
    "read_key",
    "read_record",
    "read_written",
    "record_schema",
    "remove_place",
    "save_record",
]
