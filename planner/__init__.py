"""Plans a block of lifts, jumps and sprints that closes the gap between a jump test and a target jump."""

__version__ = "0.1.0"
