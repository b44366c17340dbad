"""Run the command line as ``python -m model3d``."""

from model3d.cli import main

if __name__ == "__main__":
    main()
