"""`python -m lpv`: the command `lpv` without its entry point."""

from lpv.command.main import main

if __name__ == "__main__":
    main()
