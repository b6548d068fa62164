"""Where a value stands, in words for somebody who has to trust it."""

from bendgen.records.bend_program import BasisWord

# The same of springback in a few words, for the row of a step.
SPRINGBACK_WORDS: dict[BasisWord, str] = {
    "measured": "springback measured",
    "between": "springback between rows",
    "beyond": "springback beyond rows",
    "estimated": "springback estimated",
}

BASIS_WORDS: dict[BasisWord, str] = {
    "measured": "on a row of the table, measured on trial bends",
    "between": "between two measured rows of the table",
    "beyond": "beyond the table's rows, on the straight line through the two nearest: a guess to be tried",
    "estimated": "from material data, no trial bends: true springback may be up to 1.5° more",
    "arc kept": "radius not measured: the arc wound on the die is taken to keep its length on release",
    "not measured": "elongation not measured: taken as 0, so check the blank and every length with care",
}
