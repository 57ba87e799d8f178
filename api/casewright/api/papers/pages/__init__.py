"""Papers of several pages: the booklet and the labels."""
