"""The workbench: pages over the desk, rendered on the server, readable without script."""
