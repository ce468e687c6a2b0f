"""The workbench in the browser: pages, what guards them, and the server on this machine."""
