"""What each view draws, from a plan to pages of shapes."""
