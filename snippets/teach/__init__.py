"""Page scripts of docs/teach/: a module for each table or figure, with a function `show() -> Shown`."""
