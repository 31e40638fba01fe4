"""Turns results of `lpv` into Markdown, figures and generated pages."""
