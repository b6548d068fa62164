"""The sheet as one page for screen and printer: a program in, HTML out.

Words and numbers come from `bendgen.reports.sheet`; here is only where they stand and how large.
"""
