"""What the forms and addresses of the log bring, read."""

from __future__ import annotations

from starlette.datastructures import FormData, QueryParams, UploadFile
from starlette.requests import Request

from lapwright.errors import NotThere
from lapwright.job.log.desk import NewPhotograph
from lapwright.job.log.draft import FilledForm
from lapwright.job.log.sheet import Search, pick_kind

#: Photographs that one form may bring.
MOST_FILES = 24
#: The greatest number that the log can hold, and how many figures that has.
_GREATEST, _FIGURES = 2**63 - 1, 19


def wants_page(request: Request) -> bool:
    """Whether a page is asked for, and not an answer for a script."""
    return "text/html" in request.headers.get("accept", "")


def list_texts(form: FormData, name: str) -> list[str]:
    """Return every text that a form brings under a name."""
    return [value for value in form.getlist(name) if isinstance(value, str)]


def read_filled(form: FormData) -> FilledForm:
    """Return the fields of an entry's form as they were filled in."""
    names, values = list_texts(form, "reading_name"), list_texts(form, "reading_value")
    pairs = [*zip(names, values, strict=False)]
    fields = {
        name: "".join(list_texts(form, name)[:1]) for name in ("text", "when", "parts_used", "spent", "job", "engine")
    }
    return FilledForm(
        kind="".join(list_texts(form, "kind")[:1]) or "note",
        text=fields["text"].replace("\r\n", "\n"),
        # Left as it stood it was not meant: it is then the time of writing, or stays.
        when="" if fields["when"] in list_texts(form, "when_shown") else fields["when"],
        readings=tuple((name, value) for name, value in pairs if (name + value).strip()),
        parts_used=fields["parts_used"].replace("\r\n", "\n"),
        spent=fields["spent"],
        job=fields["job"],
        engine=fields["engine"],
    )


async def list_photographs(form: FormData) -> list[NewPhotograph]:
    """Return the photographs that a form brings; an empty choice is none."""
    files = [file for file in form.getlist("photographs") if isinstance(file, UploadFile)]
    found = [NewPhotograph(file.filename or "", await file.read()) for file in files if file.filename or file.size]
    await form.close()
    return found


def read_number(written: str) -> int:
    """Read the number of an entry.

    Raises
    ------
    NotThere: no entry can have it
    """
    number = _read_whole(written)
    if number is None or not 0 < number <= _GREATEST:
        shown = "".join(sign if sign.isprintable() else "?" for sign in written[:40])
        raise NotThere(f"entry {shown} in the log book", "look at the log again; it may have been removed")
    return number


def read_seen(form: FormData) -> int:
    """Read the version that was looked at; a form that tells none has seen nothing."""
    return _read_whole("".join(list_texts(form, "seen")[:1])) or 0


def read_search(query: QueryParams) -> Search:
    """Read what is looked for.

    Raises
    ------
    NotThere: the page is to begin at an entry that cannot be
    """
    before = query.get("before", "")
    return Search(
        words=query.get("words", ""),
        kind=pick_kind(query.get("kind", "")),
        open_only=bool(query.get("open")),
        before=read_number(before) if before else None,
    )


def read_written(query: QueryParams) -> int | None:
    """Read which entry was just written, None for none."""
    return _read_whole(query.get("written", ""))


def read_removed(query: QueryParams) -> dict[str, object] | None:
    """Read which entry of which engine was just taken out, None for none."""
    engine, _, number = query.get("removed", "").rpartition("/")
    mark = _read_whole(number)
    return {"engine": engine, "id": mark} if engine and mark else None


def _read_whole(written: str) -> int | None:
    return int(written) if written.isascii() and written.isdigit() and len(written) <= _FIGURES else None
