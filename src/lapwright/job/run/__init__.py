"""The engine on the stand: a run, a start, bench tests and what they tell of friction and leaks."""
