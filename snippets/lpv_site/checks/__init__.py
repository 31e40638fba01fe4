"""Published check values: run by the tests and printed on the validation page."""
