"""Does a file make sense as a whole? Runs only on files whose shape and references are right."""
