"""The published document, example jobs and clients, as package data."""
