"""Reading job documents: JSON or CSV in, the SDK's frozen job out, or every problem with its place."""
