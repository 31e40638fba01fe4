"""The set-up check as a form."""

from render.setup_form import build_setup_form

print(build_setup_form())
