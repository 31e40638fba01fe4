"""Page scripts of docs/debrief/: a module for each table or figure, with a function `show() -> Shown`."""
