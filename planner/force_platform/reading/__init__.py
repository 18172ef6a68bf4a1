"""Text columns to a force record: which column is what, its unit and rate."""
