"""What the phone's Python lacks of the standard library, as far as the modules of `lpv` need it there.

`lpv_site.forms.plain` puts these in the place of the modules of the same name.  The phone alone imports them; tests
run them on a computer, beside what they stand for.
"""
