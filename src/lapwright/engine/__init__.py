"""The nouns: cylinder, port face, valve, eccentric, engine. Frozen; no file, no solver."""
