"""A report as a page: what it says, each drawing below what it belongs to."""

from collections.abc import Iterable, Iterator, Sequence

from htpy import Element, Node, article, div, figcaption, figure, h1, h2, header, main, strong

from bendgen.records.comparison import Comparison
from bendgen.records.foretold import Foretold
from bendgen.records.series import CheckSeries
from bendgen.records.trials import Lesson
from bendgen.reports.comparison_report import comparison_sections
from bendgen.reports.drawings.deviation_drawing import deviation_drawing
from bendgen.reports.drawings.run_chart import run_chart
from bendgen.reports.drawings.springback_plot import springback_plot
from bendgen.reports.page.blocks import isolated, rendered, section_element, section_elements
from bendgen.reports.page.document import page
from bendgen.reports.page.title_block import field
from bendgen.reports.series_section import series_section
from bendgen.reports.trials_report import trials_sections
from bendgen.units import Units


def trials_page(name: str, lessons: Sequence[Lesson], units: Units) -> str:
    """What trial bends taught; name: of their file, units: of lengths."""
    return _report_page("Trial bends", name, _of_lessons(lessons, units))


def comparison_page(foretold: Foretold, comparisons: Sequence[Comparison], series: Sequence[CheckSeries]) -> str:
    """Measured pieces against their program."""
    name = f"{foretold.number} {foretold.revision} issue {foretold.issue} (id {foretold.program_id})"
    return _report_page("Measured pieces", name, [*_of_pieces(foretold, comparisons), *_of_series(foretold, series)])


def _of_lessons(lessons: Sequence[Lesson], units: Units) -> Iterator[Node]:
    for lesson, told in zip(lessons, trials_sections(lessons, units), strict=True):
        yield section_element(told)
        plot = springback_plot(lesson)
        if plot is not None:
            yield _drawn(f"die set {lesson.kind.die}, {lesson.kind.material}, lot {lesson.lot or 'not named'}", plot)


def _of_pieces(foretold: Foretold, comparisons: Sequence[Comparison]) -> Iterator[Node]:
    """Pieces that are out of tolerance, or the only one there is, are drawn."""
    for told, piece in comparison_sections(foretold, comparisons):
        yield section_element(told)
        if piece is not None and piece.deviations and (len(comparisons) == 1 or not piece.in_tolerance):
            yield _drawn(f"piece {piece.piece}", deviation_drawing(foretold, piece))


def _of_series(foretold: Foretold, series: Sequence[CheckSeries]) -> Iterator[Node]:
    yield from section_elements([series_section(series, foretold.units)])
    for of_check in series:
        yield _drawn(of_check.check, run_chart(of_check, foretold.units))


def _drawn(caption: str, drawing: Element) -> Element:
    return figure[figcaption[isolated(caption)], rendered(drawing)]


def _report_page(kind: str, name: str, content: Iterable[Node]) -> str:
    body = main[
        h1(".spoken")[kind],
        article(".sheet.report")[
            div(".paper")[
                header[div(".title-block")[field("document", h2[kind]), field("of", strong[isolated(name)])]],
                div(".body")[content],
            ]
        ],
    ]
    return page(f"{kind}: {name}", body)
