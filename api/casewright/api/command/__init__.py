"""The command line: plan, demo, serve, plugin tools."""
