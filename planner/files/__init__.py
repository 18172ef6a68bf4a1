"""Text to models with line numbers, and back. Phases: syntax, shape, references, sense; the first that fails stops."""
