"""`python -m stash`."""

from stash.cli.main import main

main()
