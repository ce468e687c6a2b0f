"""Records as the program's commands handle them: opened, begun, changed and saved."""

from lapwright.record import blank_record, change_record, open_record, read_record, record_schema, save_record
from lapwright.record.problem import OpenedRecord

__all__ = [
    "OpenedRecord",
    "blank_record",
    "change_record",
    "open_record",
    "read_record",
    "record_schema",
    "save_record",
]
