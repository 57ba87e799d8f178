"""The service: engine, stock planner, documents and web."""
