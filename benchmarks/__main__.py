"""Measure speed and size, as ratios in one run: `make bench`."""

from __future__ import annotations

from benchmarks import cycle, events, pages, start, sweep, turning


def main() -> None:
    """Print every ratio with its limit, and last which are over."""
    over = []
    for part in (events, cycle, start, sweep, turning, pages):
        for ratio in part.measure():
            print(ratio, flush=True)
            if ratio.is_over:
                over.append(ratio.what)
    print("over the limit: " + ("; ".join(over) or "none"))


if __name__ == "__main__":
    main()
