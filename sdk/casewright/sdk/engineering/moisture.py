"""Moisture that wood comes to in air of a given temperature and humidity.

Temperatures in degrees Celsius unless the name says `_f`; relative humidity in percent; moisture content in
percent of oven-dry mass; vapour pressure in pascals.
"""

import math

from casewright.sdk.engineering.limits import within

_TABLE = "fpl-282-table-4-2"


def _sorption(h: float, w: float, k: float, k1: float, k2: float) -> float:
    kh = k * h
    top = k1 * kh + 2.0 * k1 * k2 * kh * kh
    return 1800.0 / w * (kh / (1.0 - kh) + top / (1.0 + k1 * kh + k1 * k2 * kh * kh))


def equilibrium_moisture_f(temperature_f: float, humidity_percent: float) -> float:
    """Return the equilibrium moisture content in percent, from deg F.

    Wood Handbook FPL-GTR-282 (2021) eq. 4-5, deg F coefficients (read in program text crediting it). Valid
    over the span of Table 4-2 (from memory): 30 to 270 deg F and 5 to 95 % relative humidity.
    """
    t = within("emc-temperature", "temperature", temperature_f, 30.0, 270.0, "°F", _TABLE)
    h = within("emc-humidity", "relative humidity", humidity_percent, 5.0, 95.0, "%", _TABLE) / 100.0
    return _sorption(
        h,
        330.0 + 0.452 * t + 0.00415 * t * t,
        0.791 + 0.000463 * t - 0.000000844 * t * t,
        6.34 + 0.000775 * t - 0.0000935 * t * t,
        1.09 + 0.0284 * t - 0.0000904 * t * t,
    )


def equilibrium_moisture(temperature_c: float, humidity_percent: float) -> float:
    """Return the equilibrium moisture content in percent, from deg C.

    Wood Handbook FPL-GTR-282 (2021) eq. 4-5, deg C coefficients (from memory; within 0.01 % of the deg F
    form at 70 deg F). Valid from -1 to 132 deg C and 5 to 95 % relative humidity (Table 4-2, from memory).
    """
    t = within("emc-temperature", "temperature", temperature_c, -1.0, 132.0, "°C", _TABLE)
    h = within("emc-humidity", "relative humidity", humidity_percent, 5.0, 95.0, "%", _TABLE) / 100.0
    return _sorption(
        h,
        349.0 + 1.29 * t + 0.0135 * t * t,
        0.805 + 0.000736 * t - 0.00000273 * t * t,
        6.27 - 0.00938 * t - 0.000303 * t * t,
        1.91 + 0.0407 * t - 0.000293 * t * t,
    )


def saturation_pressure_pa(temperature_c: float) -> float:
    """Return the saturation pressure of water vapour over ice below 0.01 deg C, over water above.

    ASHRAE Handbook, Fundamentals (2017), ch. 1 eqs 5 and 6 (from memory; checked against a reference
    library). Valid from -100 to 200 deg C.
    """
    t = within("vapour-temperature", "temperature", temperature_c, -100.0, 200.0, "°C", "ashrae-psychrometrics")
    k = t + 273.15
    if t <= 0.01:
        log = (
            -5.6745359e3 / k
            + 6.3925247
            - 9.677843e-3 * k
            + 6.2215701e-7 * k**2
            + 2.0747825e-9 * k**3
            - 9.484024e-13 * k**4
            + 4.1635019 * math.log(k)
        )
    else:
        log = (
            -5.8002206e3 / k
            + 1.3914993
            - 4.8640239e-2 * k
            + 4.1764768e-5 * k**2
            - 1.4452093e-8 * k**3
            + 6.5459673 * math.log(k)
        )
    return math.exp(log)


def humidity_from_dew_point(temperature_c: float, dew_point_c: float) -> float:
    """Return the relative humidity in percent of air with a known dew point (not above its temperature)."""
    within("dew-point", "dew point", dew_point_c, -100.0, temperature_c, "°C", "ashrae-psychrometrics")
    return 100.0 * saturation_pressure_pa(dew_point_c) / saturation_pressure_pa(temperature_c)


def humidity_after_warming(from_c: float, humidity_percent: float, to_c: float) -> float:
    """Return the relative humidity in percent of air brought from one temperature to another with its water kept.

    Own derivation: the vapour pressure stays. 100 at most (the rest condenses).
    """
    within("air-humidity", "relative humidity", humidity_percent, 0.0, 100.0, "%", "ashrae-psychrometrics")
    vapour = humidity_percent * saturation_pressure_pa(from_c)
    return min(100.0, vapour / saturation_pressure_pa(to_c))
