"""From a finding to work that is done: checks, and cures that are tried, chosen and carried out."""
