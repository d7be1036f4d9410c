// Colour says one thing: how full something is; the ramp of drawing/colour.py.     (colour.ts)
export const FULL = 1;
const RAMP: readonly (readonly [number, number, number])[] = [
  [0, 32, 76],
  [65, 77, 107],
  [124, 123, 120],
  [188, 174, 108],
  [255, 234, 70],
];

/** The colour of a use, "#rrggbb"; at and above full it is the last of the ramp. */
export function colourOf(use: number): string {
  const place = Math.min(Math.max(use / FULL, 0), 1) * (RAMP.length - 1);
  const low = Math.min(Math.floor(place), RAMP.length - 2);
  const share = place - low;
  const [a, b] = [RAMP[low]!, RAMP[low + 1]!];
  return `#${a.map((from, channel) => hex(from + share * (b[channel]! - from))).join("")}`;
}

const TURN = 0.47; // white has 4.5 : 1 below, black from here on (WCAG 2.2, 1.4.3)

/** Ink that is read on that colour. */
export function inkOn(use: number): string {
  return use < TURN ? "#ffffff" : "#000000";
}

/** A use as it is written: two figures after the point. */
export function useText(use: number): string {
  return use.toFixed(2);
}

function hex(channel: number): string {
  return Math.round(channel).toString(16).padStart(2, "0");
}
