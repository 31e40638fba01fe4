"""Drawings as SVG text: axes, lines, areas, marks and labels, the same on a computer and on a phone.

`Sheet` holds a drawing and writes it, `Panel` is an area of it with two axes.  Labels are placed last, so that none
covers another, a mark, or the edge of the sheet.  `check` finds out whether a finished drawing kept to that.

All lengths are whole numbers, ten of them to a pixel where the drawing is as wide as a small phone shows it.  Colours
are roles: a class per role, which the style sheet of the site gives the colour of the theme.  No element carries a
style of its own.
"""
