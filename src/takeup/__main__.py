"""What `python -m takeup` runs.     (takeup/__main__.py)"""

from __future__ import annotations

from takeup.cli import main

if __name__ == "__main__":
    main()
