"""Force-platform records: from vertical force over time to heights, phases, forces and power, each with its error."""
