"""The form that reads a recording on the reader's device."""

from lpv_site.forms.track_form import build_track_form

print(build_track_form())
