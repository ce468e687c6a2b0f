"""The table of a sweep on the disk: rows as they come in a part beside it, the whole table when all are there."""

from __future__ import annotations

import contextlib
import os
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from io import FileIO
from pathlib import Path
from shutil import copyfileobj
from typing import BinaryIO

from lapwright.errors import CannotSave, CannotSweep
from lapwright.job.sweep.plan import SweepPlan
from lapwright.job.sweep.rows import NUMBER, TEXT, TRUTH, WHOLE, list_columns, write_head

#: Ways to write a table, by the end of its file's name.
KINDS = (".csv", ".parquet")
_FIRST_WORDS = b"lapwright sweep, part of plan "
#: Bytes of rows that become one row group of a Parquet file.
_GROUP = 1 << 20


@dataclass(slots=True)
class Part:
    """The rows worked out so far, in their order: how many, and how many of them could not be run."""

    path: Path
    file: FileIO
    start: int
    rows: int = 0
    flawed: int = 0

    def add(self, lines: bytes) -> None:
        """Put rows behind the others.

        Raises
        ------
        CannotSave: the file system says no; the rows before stay
        """
        try:
            _write(self.file, lines)
        except OSError as error:
            raise _refuse(self.path, error) from error
        self.rows += lines.count(b"\n")
        self.flawed += lines.count(b"\n") - lines.count(b",\n")


def check_place(table: Path, record: str) -> None:
    """Refuse a place where no table can be written, before hours of work go into it.

    Parameters
    ----------
    table: the file that is to be written
    record: the engine record's file

    Raises
    ------
    CannotSave: what is wrong with the place
    """
    if table.is_dir():
        raise CannotSave(str(table), "it is a folder")
    for path in (table, name_part(table)):
        if path.exists() and os.path.exists(record) and os.path.samefile(path, record):
            raise CannotSave(str(path), "it is the record itself")
    if table.suffix.lower() not in KINDS:
        raise CannotSave(str(table), f"a table's name ends in {' or '.join(KINDS)}")
    if not table.parent.is_dir():
        raise CannotSave(str(table), f"there is no folder {table.parent}")


def name_part(table: Path) -> Path:
    """Return where the rows of an unfinished table are kept."""
    return table.with_name(f"{table.name}.part")


@contextmanager
def open_part(table: Path, plan: SweepPlan) -> Iterator[Part]:
    """Open the part of a table, new or as it was left, for this process alone; one that stays empty is taken away.

    Raises
    ------
    CannotSweep: the part is another plan's, or is being written
    CannotSave: the file system says no
    """
    path = name_part(table)
    try:
        handle = os.open(path, os.O_RDWR | os.O_CREAT | getattr(os, "O_BINARY", 0), 0o666)
    except OSError as error:
        raise _refuse(path, error) from error
    # Without a buffer: what is written is on the disk or has failed, and is never tried again on closing.
    with open(handle, "r+b", buffering=0) as file:
        _take_alone(file, path)
        part = _find_end(file, path, plan)
        try:
            yield part
        except BaseException:
            if not part.rows:
                path.unlink(missing_ok=True)
            raise


def _take_alone(file: FileIO, path: Path) -> None:
    """Keep a second run of the same command out; the hold ends with the process, however that ends."""
    try:
        from fcntl import LOCK_EX, LOCK_NB, flock
    except ImportError:
        return
    try:
        flock(file, LOCK_EX | LOCK_NB)
    except BlockingIOError:
        raise CannotSweep(f"{path} is being written by another run", "let that one finish") from None


def _find_end(file: FileIO, path: Path, plan: SweepPlan) -> Part:
    """Find the last row that is whole; what stands behind it was being written when the run was broken off."""
    first = _FIRST_WORDS + plan.digest.encode() + b"\n"
    head = first + write_head(plan)
    found = file.read(len(head))
    if not head.startswith(found):
        whose = "holds rows of another sweep" if found.startswith(_FIRST_WORDS) else "is not a part of a sweep"
        raise CannotSweep(f"{path} {whose}", "write to another table, or move that file away")
    part = Part(path, file, len(first))
    try:
        if found != head:
            file.seek(0)
            _write(file, head)
        file.seek(_count_rows(part, len(head)))
        file.truncate()
    except OSError as error:
        raise _refuse(path, error) from error
    return part


def _count_rows(part: Part, end: int) -> int:
    """Count the rows that are whole, from the first one's place on; return the place behind the last."""
    with part.path.open("rb") as file:
        file.seek(end)
        for line in file:
            if not line.endswith(b"\n") or not line.startswith(b"%d," % (part.rows + 1)):
                break
            part.rows += 1
            part.flawed += not line.endswith(b",\n")
            end += len(line)
    return end


def _write(file: FileIO, data: bytes) -> None:
    left = memoryview(data)
    while left:
        left = left[file.write(left) :]


def _refuse(path: Path, error: OSError) -> CannotSave:
    return CannotSave(str(path), error.strerror or str(error))


def finish_table(part: Part, table: Path, plan: SweepPlan) -> None:
    """Make the table of all its rows, in one stroke; one that stood there before is replaced.

    Raises
    ------
    CannotSave: the file system says no
    """
    target = Path(os.path.realpath(table))
    draft = target.with_name(f".{target.name}.{os.getpid()}.new")
    write = _write_csv if table.suffix.lower() == ".csv" else _write_parquet
    try:
        with draft.open("wb") as file:
            write(part, file, plan)
            file.flush()
            os.fsync(file.fileno())
        if target.exists():
            draft.chmod(target.stat().st_mode & 0o7777)
        draft.replace(target)
    except BaseException as error:
        with contextlib.suppress(OSError):
            draft.unlink()
        if isinstance(error, OSError):
            raise _refuse(table, error) from error
        raise


def _write_csv(part: Part, out: BinaryIO, _: SweepPlan) -> None:
    part.file.seek(part.start)
    copyfileobj(part.file, out)


def _write_parquet(part: Part, out: BinaryIO, plan: SweepPlan) -> None:
    """Write the rows a group at a time, with the types of their columns and the plan beside them."""
    import pyarrow
    from pyarrow import csv, parquet

    kinds = {WHOLE: pyarrow.int64(), NUMBER: pyarrow.float64(), TRUTH: pyarrow.bool_(), TEXT: pyarrow.string()}
    fields = [pyarrow.field(column.name, kinds[column.holds]) for column in list_columns(plan)]
    schema = pyarrow.schema(fields, metadata={"lapwright.sweep": plan.told})
    reading = csv.ReadOptions(skip_rows=1, block_size=_GROUP, use_threads=False)
    types = csv.ConvertOptions(column_types=schema, null_values=[""], strings_can_be_null=True)
    with (
        csv.open_csv(part.path, reading, convert_options=types) as groups,
        parquet.ParquetWriter(out, schema) as writer,
    ):
        for group in groups:
            writer.write_batch(group)
