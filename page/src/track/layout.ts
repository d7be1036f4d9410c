// Names along the track: readable, in rows, never over each other.     (track/layout.ts)

export interface Tick {
  /** Where it stands [share of the track]. */
  at: number;
  words: string;
}

export interface Placed {
  index: number;
  row: number;
  /** Left edge and width of the words [pixels]. */
  left: number;
  width: number;
  words: string;
}

const GAP = 10; // pixels between two names
const SHORTEST = 3; // letters a shortened name keeps at least

/**
 * Place names in rows over a track of so many pixels; `measure` says how wide words are.
 *
 * Each goes into the first row where it fits. Where no row has room, all names are shortened by a step and the placing
 * begins anew, so that no name is left out as long as a few letters of each fit.
 */
export function layOut(ticks: readonly Tick[], width: number, rows: number, measure: (words: string) => number): Placed[] {
  const longest = Math.max(0, ...ticks.map((tick) => tick.words.length));
  for (let letters = longest; letters > SHORTEST; letters--) {
    const placed = attempt(ticks, width, rows, letters, measure);
    if (placed.length === ticks.length) return placed;
  }
  return attempt(ticks, width, rows, SHORTEST, measure);
}

function attempt(
  ticks: readonly Tick[],
  width: number,
  rows: number,
  letters: number,
  measure: (words: string) => number,
): Placed[] {
  const ends = Array.from({ length: rows }, () => Number.NEGATIVE_INFINITY);
  const placed: Placed[] = [];
  ticks.forEach((tick, index) => {
    const words = shortened(tick.words, letters);
    const wide = measure(words);
    const left = Math.min(Math.max(tick.at * width - wide / 2, 0), Math.max(width - wide, 0));
    const row = ends.findIndex((end) => left >= end + GAP);
    if (row === -1) return;
    ends[row] = left + wide;
    placed.push({ index, row, left, width: wide, words });
  });
  return placed;
}

export function shortened(words: string, letters: number): string {
  return words.length <= letters ? words : `${words.slice(0, Math.max(letters - 1, 1)).trimEnd()}…`;
}

/** A line of a quantity over the steps, as points of a polyline in a box: highest at the top, and nought is kept in it. */
export function curve(values: readonly number[], width: number, height: number): string {
  const low = Math.min(0, ...values);
  const high = Math.max(...values, low + 1e-9);
  const last = Math.max(values.length - 1, 1);
  return values
    .map((value, i) => `${((i / last) * width).toFixed(1)},${(height * (1 - (value - low) / (high - low))).toFixed(1)}`)
    .join(" ");
}
