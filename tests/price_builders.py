"""Price files with round numbers, so that hand calculations stay short; every number is invented."""

from __future__ import annotations

from takeup.choose.arrange.price_file import prices_from_bytes
from takeup.choose.arrange.prices import Prices

PRICES = """\
takeup_prices: 1
name: round prices
source: invented for a test
unit: EUR
joints:
  series_factor: 2
  fitting: { DN 100: 10, DN 200: 20 }
  single axial: { DN 100: 40, DN 200: 100 }
  externally pressurised: { DN 200: 300 }
anchors: { 20 kN: 50, 50 kN: 90, 100 kN: 160 }
guides:
  spider guide: { DN 100: 4, DN 200: 6 }
  slide guide: { DN 100: 5, DN 200: 8 }
  planar guide: { DN 100: 7, DN 200: 9 }
supports:
  rest: { DN 100: 2, DN 200: 3 }
  hanger: { DN 100: 4, DN 200: 5 }
  spring hanger: { DN 100: 25, DN 200: 35 }
pipework:
  pipe: { DN 100: 10, DN 200: 20 }
  insulation: { DN 100: 4, DN 200: 6 }
  bend: { DN 100: 12, DN 200: 30 }
  weld: { DN 100: 5, DN 200: 9 }
  labour: 1.5
"""


def round_prices(*changes: tuple[str, str]) -> Prices:
    """Return the prices of the text above, each first occurrence changed; a change of nothing is our own mistake."""
    text = PRICES
    for old, new in changes:
        assert old in text
        text = text.replace(old, new, 1)
    return prices_from_bytes(text.encode(), "round.yaml")
