"""From a wanted tube to feed, rotate and bend steps and a check sheet for a rotary-draw bender."""

__version__ = "0.1.0"
