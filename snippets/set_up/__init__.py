"""Page scripts of docs/set-up/: a module for each table or figure, with a function `show() -> Shown`."""
