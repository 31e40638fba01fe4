"""The forms of the pages and what the phone runs behind them."""
