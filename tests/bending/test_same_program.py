"""A sheet's own commands, held against those that part and machine give now."""

from dataclasses import replace

import pytest

from bendgen.bending.foretold import foretold_of_program
from bendgen.bending.same_program import difference
from bendgen.records.bend_program import BendProgram


def test_a_program_does_not_differ_from_what_it_foretold(example_program: BendProgram) -> None:
    assert difference(example_program, foretold_of_program(example_program)) is None


def test_another_number_of_bends_is_named(example_program: BendProgram) -> None:
    fewer = replace(example_program, steps=example_program.steps[:1])
    assert difference(fewer, foretold_of_program(example_program)) == "1 bend instead of 2"


@pytest.mark.parametrize(("field", "name"), [("feed", "feed"), ("rotation_deg", "rotation"), ("bend_deg", "bend")])
def test_the_first_other_command_is_named(example_program: BendProgram, field: str, name: str) -> None:
    first, second = example_program.steps
    for more, differs in ((2e-6, True), (0.5e-6, False)):
        other = replace(second, **{field: getattr(second, field) - more})
        told = difference(replace(example_program, steps=(first, other)), foretold_of_program(example_program))
        assert (told or "").startswith(f"step 2: {name} ") == differs
