"""Page scripts of docs/modes/: a module for each table or figure, with a function `show() -> Shown`."""
