"""What holds for the numbers of steps, whichever file they stand in."""

from collections.abc import Iterator, Mapping

from bendgen.files.validation import Flaw


def check_numbers(numbers: Mapping[int, int]) -> Iterator[Flaw]:
    """Find numbers that do not rise; keys are places in the list, from 0."""
    last = 0
    for place, number in sorted(numbers.items()):
        if number <= last:
            yield Flaw(place=(place, "number"), expected=f"a number greater than {last}", found=str(number))
        last = max(last, number)
