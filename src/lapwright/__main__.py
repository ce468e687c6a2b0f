"""`python -m lapwright` does what `lapwright` does."""

from lapwright.cli import main

if __name__ == "__main__":
    main()
