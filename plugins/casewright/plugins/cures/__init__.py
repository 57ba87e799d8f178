"""Built-in cures: for each family of stops, the changes of a job that may clear them."""
