"""One cylinder turned over, as found and with other sizes tried."""
