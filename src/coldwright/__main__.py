"""`python -m coldwright`: the command line."""

from coldwright.cli import main

if __name__ == "__main__":
    main()
