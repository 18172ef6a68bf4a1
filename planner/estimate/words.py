"""Words for the estimate's sentences: lengths and loads in the athlete's units (``print_as``)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from planner.domain.athlete import Athlete
from planner.units import POUND_FORCE_N, as_read_by, format_height, format_length, format_mass, format_run


@dataclass(frozen=True)
class Words:
    """How one athlete's coach reads a length and a load."""

    length_unit: Literal["cm", "in"] = "cm"
    mass_unit: Literal["kg", "lb"] = "kg"

    def length(self, length_m: float, digits: int = 1) -> str:
        """``10.5 cm`` or ``4.1 in``; an inch is long, so it keeps a decimal where centimetres are whole."""
        return format_length(length_m, self.length_unit, max(digits, 1) if self.length_unit == "in" else digits)

    def length_number(self, length_m: float) -> str:
        """``10.5``: of a length whose unit follows later."""
        return self.length(length_m).removesuffix(f" {self.length_unit}")

    def mark(self, length_m: float) -> str:
        """A touch or a hop as read off a tape: ``3.115 m`` or ``122.6 in``."""
        return format_length(length_m, "in", 1) if self.length_unit == "in" else format_length(length_m, "m", 3)

    def box(self, height_m: float) -> str:
        """A height to step off or onto, as cards print it: ``30 cm``, ``12 in``."""
        return format_height(height_m, self.length_unit)

    def run(self, length_m: float) -> str:
        """The distance of a sprint as it was laid out: ``10 m``, ``10 yd``."""
        return format_length(length_m, "m", 3) if self.length_unit == "cm" else format_run(length_m, "in", 0.1)

    def load(self, load_kg: float, digits: int = 1) -> str:
        """``122.5 kg`` or ``270 lb``."""
        return format_mass(load_kg, self.mass_unit, digits)

    def force(self, force_N: float) -> str:
        """``1,883 N``; for readers of pounds ``1,883 N, 423 lbf``, since the benchmarks are in newtons."""
        return f"{force_N:,.0f} N" + (f", {force_N / POUND_FORCE_N:,.0f} lbf" if self.mass_unit == "lb" else "")

    def load_number(self, load_kg: float, digits: int = 1) -> str:
        return self.load(load_kg, digits).removesuffix(f" {self.mass_unit}")


def words_of(athlete: Athlete) -> Words:
    return Words(athlete.print_as.length, athlete.print_as.mass)


def as_measured_by(text: str, words: Words) -> str:
    """A sentence of the force platform, heights and masses in the reader's units to the tenth."""
    return as_read_by(text, words.length_unit, words.mass_unit, measured=True)
