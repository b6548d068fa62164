"""The part to be turned on screen; on paper, and without scripts, the drawings stand for it."""

from htpy import Element, button, canvas, div, figcaption, figure

BUTTONS = {"left": "turn left", "right": "turn right", "up": "from higher", "down": "from lower", "back": "first view"}


def turnable_figure() -> Element:
    """Where the page's script draws the part, and the buttons that turn it."""
    return figure("#turnable", hidden=True)[
        figcaption["The finished part as predicted. Drag it, or use the buttons."],
        canvas(role="img", aria_label="The finished part, to be turned"),
        div[(button(type="button", value=way)[words] for way, words in BUTTONS.items())],
    ]
