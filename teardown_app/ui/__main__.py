"""Opens the touch app: `python -m teardown_app.ui [--home FOLDER] [--demo] [--camera PICTURE_OR_FOLDER]`.

The app itself runs as the child of a small guard, which starts it again when a reader's fault ends it.
"""

from __future__ import annotations

import sys

from teardown_app.ui.guard import guarded, is_child, own_command


def main() -> int:
    """Guards the app, or is the app; gives the exit code."""
    if not is_child():
        return guarded(own_command())
    from teardown_app.ui.start import start

    return start()


if __name__ == "__main__":
    sys.exit(main())
