from dataclasses import replace

from bendgen.records.machine import MachineProfile
from bendgen.reports.profile_summary import new_die_notes, profile_summary


def test_a_complete_machine(metric_profile: MachineProfile) -> None:
    assert profile_summary(metric_profile, cautions=0) == (
        "Bay 2 mandrel bender: 1 die set, 1 table, no materials; no mistakes, no cautions"
    )


def test_die_sets_without_a_table_are_named(metric_profile: MachineProfile) -> None:
    profile = replace(metric_profile, tables=(), dies=(*metric_profile.dies, replace(metric_profile.dies[0], id="b")))
    assert profile_summary(profile, cautions=2) == (
        "Bay 2 mandrel bender: 2 die sets, no tables, no materials; no mistakes, 2 cautions; no table yet: d50-r100, b"
    )


def test_notes_about_a_new_die_set() -> None:
    missing = (
        'still missing: a table from trial bends, a file in tables/ with die = "d60"; '
        "until there is one, the springback is estimated and every part on this die set is a trial piece"
    )
    assert new_die_notes("d60", absent=[]) == missing
    assert new_die_notes("d60", absent=["walls", "sleeve"]) == f"not given, so not checked: walls, sleeve\n{missing}"
