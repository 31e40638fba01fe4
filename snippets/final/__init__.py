"""Page scripts of docs/final/: a module for each table or figure, with a function `show() -> Shown`."""
