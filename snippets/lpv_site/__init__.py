"""Turns results of `lpv` into Markdown, figures and generated pages."""

from lpv_site.department.department import put_in_place

# A department's own figures take the place of ours before any module reads one.
put_in_place()
