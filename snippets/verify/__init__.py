"""Page scripts of docs/verify/: a module for each table or figure, with a function `show() -> Shown`."""
