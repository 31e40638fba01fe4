"""Page scripts of docs/decide/: a module for each table or figure, with a function `show() -> Shown`."""
