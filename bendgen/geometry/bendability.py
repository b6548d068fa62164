"""How hard a bend is on its tube: plain ratios, the volume-kept estimate of thinning, and three ways to say oval.

The three measures of ovality give different numbers for one section: a limit means nothing without its definition.
"""


def thinning_share(od: float, clr: float) -> float:
    """Share of the wall lost on the outside of a bend, if the volume is kept and the axis stays the axis [-].

    It is an estimate and not the thickness rule of any piping code.
    """
    return 1.0 - clr / (clr + 0.5 * od)


def wall_factor(od: float, wall: float) -> float:
    """Outside diameter over wall [-]."""
    return od / wall


def bend_ratio(od: float, clr: float) -> float:
    """Centreline radius over outside diameter, the D of bend [-]."""
    return clr / od


def outer_strain(od: float, clr: float) -> float:
    """Strain of the outermost fibre, the axis unstrained [-]."""
    return od / (2.0 * clr)


def ovality_of_nominal(largest: float, smallest: float, nominal: float) -> float:
    """Largest less smallest diameter over the nominal one [-]: the rule of pipe codes."""
    return (largest - smallest) / nominal


def ovality_of_mean(largest: float, smallest: float) -> float:
    """Largest less smallest diameter over their mean [-]."""
    return 2.0 * (largest - smallest) / (largest + smallest)


def roundness_ratio(largest: float, smallest: float) -> float:
    """Smallest over largest diameter [-]; 1 is round."""
    return smallest / largest
