"""From a measured stationary steam engine to what is wrong, what to cut or set, and the job card to work from."""

__version__ = "0.1.0"
