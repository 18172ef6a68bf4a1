"""What was done, and what follows from it. Pure: it knows the block, its log and the library, and reads no file."""
