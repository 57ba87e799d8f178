"""Exact conversion factors between inch-pound and SI units.

Built from the three exact definitions (`nist-811`): 1 in = 25.4 mm, 1 lb = 0.45359237 kg,
g = 9.80665 m/s2.
"""

G_M_S2 = 9.80665
MM_PER_IN = 25.4
MM_PER_FT = 304.8
NM_PER_MM = 1_000_000
KG_PER_LB = 0.45359237
N_PER_LBF = KG_PER_LB * G_M_S2
MPA_PER_PSI = N_PER_LBF / MM_PER_IN**2
PA_PER_PSF = N_PER_LBF / (MM_PER_FT / 1000.0) ** 2
N_MM_PER_LBF_IN = N_PER_LBF / MM_PER_IN
"""Newtons per millimetre in one pound-force per inch."""


def mm(length_nm: int) -> float:
    """Return a catalogue or geometry length (whole nm) in millimetres."""
    return length_nm / NM_PER_MM


def inches(length_mm: float) -> float:
    """Return a length in inches from millimetres."""
    return length_mm / MM_PER_IN


def weight_n(mass_kg: float) -> float:
    """Return the weight in newtons of a mass in kilograms at standard gravity."""
    return mass_kg * G_M_S2
