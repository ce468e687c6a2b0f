"""One table of a record under check: what is struck out is kept from the later checks and from the engine."""

from __future__ import annotations

from dataclasses import dataclass

from lapwright.quantities import Quantity
from lapwright.record.contents import Values
from lapwright.record.layout import Path
from lapwright.record.problem import Ledger, Severity


@dataclass(slots=True)
class Form:
    """The values read of one table, and where it stands."""

    path: Path
    values: Values
    ledger: Ledger

    @property
    def is_blank(self) -> bool:
        """Whether nothing stands under the heading: a form not filled in yet."""
        return not self.values and not self.is_refused()

    def add(self, code: str, key: str, message: str, *, instead: str, severity: Severity = "error") -> None:
        """Note a problem with a key, or with the table as a whole where the key is empty."""
        path = (*self.path, key) if key else self.path
        self.ledger.add(code, path, f"{key}: {message}" if key else message, instead=instead, severity=severity)

    def strike(self, code: str, key: str, message: str, *, instead: str) -> None:
        """Note a problem with a key and leave the key out from here on."""
        self.add(code, key, message, instead=instead)
        self.values.pop(key, None)

    def is_refused(self, key: str = "") -> bool:
        """Whether a key, or any of the table, was given but could not be used."""
        start = ".".join(map(str, self.path)) + "."
        return any(p.key.startswith(start) and key in {"", p.key.removeprefix(start)} for p in self.ledger.problems)

    def si(self, key: str) -> float | None:
        """The figure of a key in SI, None where it is not known."""
        value = self.values.get(key)
        return value.si if isinstance(value, Quantity) else None
