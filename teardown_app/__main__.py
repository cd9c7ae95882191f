"""`python -m teardown_app` is the same as `teardown-app`."""

from __future__ import annotations

import sys


def main() -> None:
    """Runs the command line and exits with its code."""
    from teardown_app.cli.main import main as run

    sys.exit(run())


if __name__ == "__main__":
    main()
