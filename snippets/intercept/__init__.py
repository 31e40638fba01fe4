"""Page scripts of docs/intercept/: a module for each table or figure, with a function `show() -> Shown`."""
