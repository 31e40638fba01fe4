"""What each side of the cockpit has set, checked against the approach and against the other side.

`check` gives findings in the order of the cockpit (see `lpv.setup_checks`).  Set-up files are read by
`lpv.setup_file`, the entries of the form in the browser by `lpv.setup_form`.

`python -m lpv.setup FILE --approach FILE [--aircraft FILE] [--json]` prints the findings of a set-up file; it
exits with 1 if any is a stop, with 2 if a file has faults.
"""

from lpv.setup_checks import check

__all__ = ["check"]

if __name__ == "__main__":
    import sys

    from lpv.setup_file import main

    sys.exit(main(sys.argv[1:]))
