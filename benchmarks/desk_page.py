"""From the hand on a slider to the picture, measured in the browser on the demonstration.     (benchmarks/desk_page.py)

    PYTHONPATH=src python -m benchmarks.desk_page [--moves 200]

The page's own clock measures from the input event until the new look is drawn. The peer in the same run is a request
that asks the server for nothing but what it has at hand (`/api/study`): what the way there and back costs by itself.
Aim: median under 30 ms, 95 % under 100 ms, on two cores.
"""

from __future__ import annotations

import argparse
import shutil
import statistics
import tempfile
from pathlib import Path

from playwright.sync_api import Page, sync_playwright
from tests.browser.desks import EXAMPLES, SWITCHES, Started, opened

AIM_MEDIAN, AIM_MOST = 30.0, 100.0  # ms
_MOVES = """async ([name, moves]) => {
  const slider = document.querySelector(`input[type=range][aria-label^="${name}"]`);
  const setter = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, "value").set;
  const [low, high] = [Number(slider.min), Number(slider.max)];
  performance.clearMeasures("look");
  for (let move = 0; move < moves; move++) {
    const before = performance.getEntriesByName("look").length;
    const share = 0.5 + 0.5 * Math.sin(move * 0.37);
    setter.call(slider, String(low + share * (high - low)));
    slider.dispatchEvent(new Event("input", { bubbles: true }));
    const end = performance.now() + 2000;
    while (performance.getEntriesByName("look").length === before && performance.now() < end)
      await new Promise((go) => setTimeout(go, 1));
  }
  return performance.getEntriesByName("look").map((one) => one.duration);
}"""
_PEER = """async (moves) => {
  const took = [];
  for (let move = 0; move < moves; move++) {
    const began = performance.now();
    await (await fetch("/api/study")).json();
    took.push(performance.now() - began);
  }
  return took;
}"""


def spread(took: list[float]) -> tuple[float, float]:
    """Return the median and what 95 % stay under [ms]."""
    return statistics.median(took), statistics.quantiles(took, n=20)[18]


def rows(page: Page, moves: int) -> list[tuple[str, float, float]]:
    """Return what was moved with its median and its 95 % [ms], the peer last."""
    found = []
    for words, name in (("pressure by hand", "Pressure"), ("temperature by hand", "Temperature")):
        found.append((words, *spread(page.evaluate(_MOVES, [name, moves]))))
    page.get_by_role("button", name="Back to the walk").click()
    found.append(("along the walk", *spread(page.evaluate(_MOVES, ["Step of the walk", moves]))))
    return [*found, ("peer: there and back", *spread(page.evaluate(_PEER, moves)))]


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--moves", type=int, default=200)
    moves = parser.parse_args().moves
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as player:
        file = Path(folder) / "ketterby-steam-main.yaml"
        file.write_bytes((EXAMPLES / file.name).read_bytes())
        desk = Started(file=file)
        desk.start()
        browser = player.chromium.launch(executable_path=shutil.which("chromium"), args=list(SWITCHES))
        page = opened(browser.new_context(viewport={"width": 1440, "height": 900}), desk.address).page
        page.get_by_text("close").first.wait_for()  # the whole study is done and takes no core any more
        for words, median, most in rows(page, moves):
            print(f"{words:24} median {median:6.1f} ms, 95 % under {most:6.1f} ms")
        print(f"aim: median {AIM_MEDIAN:g} ms, 95 % under {AIM_MOST:g} ms")
        browser.close()
        desk.end()


if __name__ == "__main__":
    main()
