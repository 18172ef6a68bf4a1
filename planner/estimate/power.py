"""Peak power of a countermovement jump from its height: regressions over groups, not measurements of one athlete."""

from __future__ import annotations


def sayers_peak_power_W(*, rise_cm: float, body_mass_kg: float) -> float:
    """60.7 h + 45.3 m - 2055 (Sayers et al. 1999, MSSE 31:572)."""
    return 60.7 * rise_cm + 45.3 * body_mass_kg - 2055.0


def harman_peak_power_W(*, rise_cm: float, body_mass_kg: float) -> float:
    """61.9 h + 36.0 m - 1822 (Harman et al. 1991, J Appl Sport Sci Res 5:116, address from memory).

    Often misprinted with a plus.
    """
    return 61.9 * rise_cm + 36.0 * body_mass_kg - 1822.0
