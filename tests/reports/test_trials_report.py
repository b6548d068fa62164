"""What trial bends taught, word for word."""

from dataclasses import replace
from datetime import date

from bendgen.records.allowances import AllowanceRow, AllowanceTable
from bendgen.records.trials import LearnedRow, LeftOut, Lesson, LotShift, NextBend, SpringbackFit, TubeKind
from bendgen.reports.trials_report import trials_text

NAN = float("nan")
ROWS = (
    LearnedRow(commanded_deg=31.0, angle_deg=29.8, springback_deg=1.2, bends=1, clr=104.03, elongation=1.1),
    LearnedRow(
        commanded_deg=93.0,
        angle_deg=90.2,
        springback_deg=2.8,
        bends=2,
        spread_deg=0.07,
        clr=103.1,
        elongation=3.2,
        clr_measured=True,
        elongation_measured=True,
        gauge_clr=102.0,
    ),
)
TABLE = AllowanceTable(
    file="tables/d50-r100_304l_1.5_lot-7731_2026-03-20.toml",
    die="d50-r100",
    material="304L",
    wall=1.5,
    perforated=False,
    lot="7731",
    source="invented",
    issued=date(2026, 3, 20),
    rows=(AllowanceRow(angle_deg=29.8, springback_deg=1.2), AllowanceRow(angle_deg=90.2, springback_deg=2.8)),
)
LESSON = Lesson(
    kind=TubeKind(die="d50-r100", material="304L", wall=1.5, perforated=False, temper="annealed"),
    lot="7731",
    bends=4,
    rows=ROWS,
    left_out=(LeftOut(line=4, reading="bend", text="re-struck"),),
    cautions=("one to mind",),
    table=TABLE,
    fit=SpringbackFit(
        coefficients=(0.41, 0.0265),
        covariance=((0.01, 0.0), (0.0, 1e-6)),
        sd_deg=0.07,
        degrees_of_freedom=1,
    ),
    next_bend=NextBend(
        finished_deg=60.0,
        commanded_deg=62.0,
        repeat=False,
        deviation_before_deg=0.12,
        deviation_after_deg=0.08,
        matters="20 to 100°",
    ),
)


def test_a_table_that_was_written() -> None:
    assert trials_text([LESSON], "mm") == (
        "d50-r100, 304L annealed, wall 1.5 mm, plain, lot 7731: 3 of 4 bends used\n"
        "  wrote tables/d50-r100_304l_1.5_lot-7731_2026-03-20.toml\n"
        "  parts that name no lot use it, too, while no newer table serves them\n"
        "  commanded [°]  finished [°]  springback [°]  bends  spread [°]  setback radius [mm]  elongation [mm]  "
        "gauge radius [mm]\n"
        "  -------------  ------------  --------------  -----  ----------  -------------------  ---------------  "
        "-----------------\n"
        "           31.0         29.80            1.20      1                          104.03*            1.10*\n"
        "           93.0         90.20            2.80      2        0.07               103.10             3.20"
        "             102.00\n"
        "  * not measured at this angle: continued from the other rows\n"
        "  springback about 0.41 + 0.0265 · θ degrees for a finished angle of θ degrees; one bend scatters by 0.07°\n"
        "    (one standard deviation, 1 degree of freedom)\n"
        "  line 4, bend left out: re-struck\n"
        "  caution: one to mind\n"
        "  bend next: command 62.0° for 60.0° finished, in the gap between 29.8° and 90.2°: over 20 to 100° the\n"
        "    springback is now known to 0.12°, with that bend to 0.08° (one standard deviation, root mean square)\n"
    )


def test_reasons_for_the_next_bend() -> None:
    assert LESSON.next_bend is not None

    def reason(finished: float, *, repeat: bool = False) -> str:
        bend = replace(LESSON.next_bend, finished_deg=finished, repeat=repeat)  # type: ignore[type-var]
        text = " ".join(trials_text([replace(LESSON, next_bend=bend)], "mm").split())
        return text.split(" finished, ", 1)[1].split(": over", 1)[0]

    assert reason(15.0) == "as nothing was bent below 29.8°"
    assert reason(150.0) == "as nothing was bent above 90.2°"
    assert reason(90.2, repeat=True) == "again, as a mean scatters less than one bend"


def test_a_refusal_and_a_second_lesson() -> None:
    refused = Lesson(kind=replace(LESSON.kind, perforated=True), lot=None, bends=1, refusal="too few")
    text = trials_text([refused, refused], "in")
    one = "d50-r100, 304L annealed, wall 0.059 in, perforated: 0 of 1 bend used\n  not written: too few"
    assert text == f"{one}\n\n{one}\n"


def test_a_sum_that_cannot_be_split() -> None:
    rows = (replace(ROWS[1], clr=None, elongation=None, legs_less_blank=44.5, gauge_clr=None),)
    fit = SpringbackFit(coefficients=(1.0, 0.02), covariance=((NAN, NAN), (NAN, NAN)), sd_deg=NAN, degrees_of_freedom=0)
    text = trials_text([replace(LESSON, rows=rows, fit=fit)], "mm")
    assert "2T - blank used [mm]\n" in text
    assert "               44.50\n" in text
    assert "one equation, which cannot" in text
    assert "too few bends to see how much one scatters" in " ".join(text.split())
    assert "*" not in text


def test_a_lot_that_shifts_another_table() -> None:
    shift = LotShift(base="tables/old.toml", angle_deg=90.0, shift_deg=-0.25)
    text = trials_text([replace(LESSON, shift=shift, fit=None, next_bend=None)], "mm")
    assert (
        "one angle of a lot cannot make a table: every springback of tables/old.toml is shifted by -0.25°, the "
        "difference at 90.0°"
    ) in " ".join(text.split())
