"""Page scripts of docs/reference/: a module for each table or figure, with a function `show() -> Shown`."""
