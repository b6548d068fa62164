"""A report as a page: its words as they stand on a terminal, and the drawings that go with them."""

from collections.abc import Iterable, Iterator, Sequence

from htpy import Element, article, div, figcaption, figure, h1, h2, header, main, pre, strong

from bendgen.records.comparison import Comparison
from bendgen.records.foretold import Foretold
from bendgen.records.series import CheckSeries
from bendgen.records.trials import Lesson
from bendgen.reports.drawings.deviation_drawing import deviation_drawing
from bendgen.reports.drawings.run_chart import run_chart
from bendgen.reports.drawings.springback_plot import springback_plot
from bendgen.reports.page.blocks import isolated, rendered
from bendgen.reports.page.document import page
from bendgen.reports.page.title_block import field

Drawn = tuple[str, Element]  # what it shows, and the drawing


def trials_page(name: str, text: str, lessons: Sequence[Lesson]) -> str:
    """What trial bends taught; name: of their file, text: the report in words."""
    return _report_page("Trial bends", name, text, _of_lessons(lessons))


def comparison_page(
    foretold: Foretold, text: str, comparisons: Sequence[Comparison], series: Sequence[CheckSeries]
) -> str:
    """Measured pieces against their program; text: the report in words."""
    name = f"{foretold.number} {foretold.revision} issue {foretold.issue} (id {foretold.program_id})"
    drawn = [*_of_pieces(foretold, comparisons), *_of_series(foretold, series)]
    return _report_page("Measured pieces", name, text, drawn)


def _of_lessons(lessons: Sequence[Lesson]) -> Iterator[Drawn]:
    for lesson in lessons:
        plot = springback_plot(lesson)
        if plot is not None:
            yield f"die set {lesson.kind.die}, {lesson.kind.material}, lot {lesson.lot or 'not named'}", plot


def _of_pieces(foretold: Foretold, comparisons: Sequence[Comparison]) -> Iterator[Drawn]:
    """Pieces that are out of tolerance, or the only one there is."""
    for comparison in comparisons:
        if comparison.deviations and (len(comparisons) == 1 or not comparison.in_tolerance):
            yield f"piece {comparison.piece}", deviation_drawing(foretold, comparison)


def _of_series(foretold: Foretold, series: Sequence[CheckSeries]) -> Iterator[Drawn]:
    for of_check in series:
        yield of_check.check, run_chart(of_check, foretold.units)


def _report_page(kind: str, name: str, text: str, drawn: Iterable[Drawn]) -> str:
    content = main[
        h1(".spoken")[kind],
        article(".sheet.report")[
            div(".paper")[
                header[div(".title-block")[field("document", h2[kind]), field("of", strong[isolated(name)])],],
                div(".body")[
                    pre[text],
                    (figure[figcaption[isolated(caption)], rendered(drawing)] for caption, drawing in drawn),
                ],
            ]
        ],
    ]
    return page(f"{kind}: {name}", content)
