"""Laws of the record: reading never fails, writing touches nothing but what was asked for."""

import re
import tomllib

from hypothesis import given, settings
from hypothesis import strategies as st

from lapwright.errors import CannotChange
from lapwright.record import change_record, read_record
from lapwright.record.keys import TABLES
from lapwright.record.layout import find_layout
from tests.unit.record.records import HALF_KNOWN, TESTED, TWIN

EDITABLE = [
    *(f"engine.{key}" for key in TABLES["engine"]),
    *(f"target.{key}" for key in TABLES["target"]),
    *(f"running.{key}" for key in TABLES["running"]),
    *(f"bench_test.{number}.{key}" for number in range(3) for key in TABLES["bench_test"]),
    *(
        f"cylinder.{number}.{f'{table}.{key}'.removeprefix('cylinder.')}"
        for number in (0, 1)
        for table in TABLES
        for key, what in TABLES[table].items()
        if table.startswith("cylinder") and not what.count
    ),
    *(f"cylinder.1.valve.edges.{i}" for i in range(4)),
    *(f"cylinder.1.port_face.edges.{i}" for i in range(6)),
]
texts = st.one_of(
    st.sampled_from(["14 mm", "8 %", "5 W", "18 °C", '3/4"', "7 BA", "it's 1\" ± \\"]), st.text(max_size=12)
)
endings = st.sampled_from([TESTED, TESTED.replace("\n", "\r\n"), "\ufeff" + TWIN, TESTED.rstrip(), HALF_KNOWN])


def list_unlike_lines(old: str, new: str) -> tuple[list[str], list[str]]:
    """Take away the equal lines at the start and the end."""
    a, b = old.splitlines(keepends=True), new.splitlines(keepends=True)
    while a and b and a[0] == b[0]:
        del a[0], b[0]
    while a and b and a[-1] == b[-1]:
        del a[-1], b[-1]
    return a, b


@given(endings, st.sampled_from(EDITABLE), texts)
def test_a_change_touches_one_line_and_sets_one_key(text: str, key: str, value: str) -> None:
    try:
        changed = change_record(text, {key: value})
    except CannotChange:
        return
    assert read_record(changed.encode()).written[key] == value
    old, new = list_unlike_lines(text, changed)
    assert len(old) <= 1
    assert len(new) <= 4  # a heading with its blank line, its key, and a line end that was missing
    if old and len(new) == 1:
        # Within the line only the value differs: what is around it is the same at both ends.
        span_free = re.sub(r"\"[^\"]*\"|'[^']*'", "", old[0])
        assert span_free.split("#")[-1].strip() in new[0] or "#" not in old[0]


@given(endings, st.lists(st.tuples(st.sampled_from(EDITABLE), texts), max_size=6))
def test_changes_put_back_give_the_old_bytes(text: str, changes: list[tuple[str, str]]) -> None:
    written = read_record(text.encode()).written
    # A plain number comes back in quotation marks.
    there = {key: value for key, value in changes if key in written and "coefficient" not in key}
    changed = change_record(text, there)
    originals = find_layout(text)
    restored = change_record(changed, {key: written[key] for key in there})
    again = find_layout(restored)
    assert [(s.path, s.is_header) for s in again.statements] == [(s.path, s.is_header) for s in originals.statements]
    assert tomllib.loads(restored.removeprefix("\ufeff")) == tomllib.loads(text.removeprefix("\ufeff"))
    # The quotation marks may be of the other kind; everything outside the values is the same to the byte.
    assert strip_values(restored, again) == strip_values(text, originals)


def strip_values(text: str, layout: object) -> str:
    """Cut every plain value out of a text."""
    spans = sorted((s.start, s.end) for s in layout.spans.values() if s.kind == "value")
    for start, end in reversed(spans):
        text = text[:start] + text[end:]
    return text


@given(st.binary(max_size=300))
def test_any_bytes_give_an_answer(data: bytes) -> None:
    found = read_record(data)
    assert found.engine is not None or found.problems


values = st.recursive(
    st.one_of(
        st.booleans(),
        st.integers(),
        st.floats(),
        st.text(max_size=10),
        st.dates(),
        st.sampled_from(["14 mm", "90 deg", "2 bar", "3/4 in", "5 ± 6 mm", "-1 mm", "8 ± 9 %", "3 W", "20 C"]),
    ),
    lambda inner: (
        st.lists(inner, max_size=7) | st.dictionaries(st.sampled_from(EDITABLE[0].split(".")), inner, max_size=2)
    ),
    max_leaves=8,
)


def show_toml(value: object) -> str:
    """Write any value as TOML."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key} = {show_toml(item)}" for key, item in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(show_toml, value)) + "]"
    if isinstance(value, str):
        return '"' + "".join(f"\\u{ord(c):04x}" if ord(c) < 0x10000 else f"\\U{ord(c):08x}" for c in value) + '"'
    return str(value).lower() if isinstance(value, bool | float) else str(value)


@settings(max_examples=300)
@given(st.lists(st.tuples(st.sampled_from(EDITABLE), values), max_size=5))
def test_any_value_of_any_kind_in_any_place_is_an_engine_or_a_problem(entries: list[tuple[str, object]]) -> None:
    text = TWIN
    for key, value in entries:
        name = key.rsplit(".", 1)[-1]
        text = re.sub(rf"(?m)^{name} = .*$", lambda _, v=value, n=name: f"{n} = {show_toml(v)}", text, count=1)
    found = read_record(text.encode("utf-8", "replace"))
    assert found.engine is not None or any(problem.severity == "error" for problem in found.problems)
    for problem in found.problems:
        assert (problem.message + problem.instead).isprintable()
        assert problem.line <= text.count("\n") + 1


@given(st.sampled_from([TWIN, HALF_KNOWN]))
def test_reading_twice_gives_the_same(text: str) -> None:
    assert read_record(text.encode()) == read_record(text.encode())
