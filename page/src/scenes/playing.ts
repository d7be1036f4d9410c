// A stage that plays by itself: pressure first, then heat, then pressure away.     (scenes/playing.ts)
import type { ByHand, SceneFile } from "../interface";

/** A stretch of the play: to what, in how many milliseconds. */
interface Stretch {
  to: ByHand;
  ms: number;
}

/** From as installed to pressure, to heat, to pressure lost. */
export function stretchesOf(file: SceneFile): Stretch[] {
  const { highest_bar, highest_c, lowest_c } = file;
  return [
    { to: { pressure_bar: highest_bar, temperature_c: lowest_c }, ms: 2500 },
    { to: { pressure_bar: highest_bar, temperature_c: highest_c }, ms: 4000 },
    { to: { pressure_bar: 0, temperature_c: highest_c }, ms: 2500 },
  ];
}

export const REST_MS = 900; // between two stretches, so that the numbers can be read

/**
 * The state so many milliseconds after the beginning; null once it is over.
 *
 * `still`: for who wants no motion: each stretch is shown by its end alone, for as long.
 */
export function stateAt(file: SceneFile, ms: number, still = false): ByHand | null {
  let from: ByHand = { pressure_bar: 0, temperature_c: file.lowest_c };
  let left = ms;
  for (const { to, ms: takes } of stretchesOf(file)) {
    if (left <= takes + REST_MS) return between(from, to, still ? 1 : Math.min(left / takes, 1));
    left -= takes + REST_MS;
    from = to;
  }
  return null;
}

function between(from: ByHand, to: ByHand, share: number): ByHand {
  const mixed = (a: number, b: number) => a + share * (b - a);
  return {
    pressure_bar: Number(mixed(from.pressure_bar, to.pressure_bar).toFixed(2)),
    temperature_c: Number(mixed(from.temperature_c, to.temperature_c).toFixed(1)),
  };
}
