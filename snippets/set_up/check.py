"""The set-up check as a form."""

from lpv_site.forms.setup_form import build_setup_form

print(build_setup_form())
