// Where the steps and the names of their states lie along the track.     (track/layout.ts)

interface Step {
  step: number;
  arrived: boolean;
}

/**
 * Where each step lies [share of the track]: states stand equally far apart, so that each has room for its name, and the
 * steps on the way to one are shared out evenly before it.
 */
export function shares(steps: readonly Step[]): number[] {
  const states = steps.filter((one) => one.arrived).map((one) => one.step);
  const parts = Math.max(states.length - 1, 1);
  const first = states[0] ?? 0;
  return steps.map(({ step }) => {
    const next = states.findIndex((state) => state >= step);
    if (next === -1) return 1;
    if (step <= first) return 0;
    const [from, to] = [states[next - 1] ?? first, states[next] ?? step];
    return (next - 1 + (step - from) / Math.max(to - from, 1)) / parts;
  });
}

/** The step that lies nearest to a share of the track. */
export function stepAt(all: readonly number[], share: number): number {
  let best = 0;
  all.forEach((one, step) => {
    if (Math.abs(one - share) < Math.abs((all[best] ?? 0) - share)) best = step;
  });
  return best;
}

export interface Placed {
  index: number;
  row: number;
  /** Left edge and width of the name's room [pixels]; it may stand out at the ends by half of it. */
  left: number;
  width: number;
}

const GAP = 4; // pixels between two names
const NARROWEST = 66; // pixels in which the words of a name can be set, some over each other
const WIDEST = 150;
const BEYOND = 46; // pixels that the first and the last name may stand out beyond the track

/** Rooms for names of states that stand equally far apart: as many rows as it takes, no two over each other. */
export function rooms(count: number, width: number): Placed[] {
  const apart = width / Math.max(count - 1, 1);
  const rows = Math.max(Math.ceil((NARROWEST + GAP) / apart), 1);
  const wide = Math.min(apart * rows - GAP, WIDEST);
  return Array.from({ length: count }, (_, index) => {
    const own = index === 0 || index === count - 1 ? Math.min(wide, 2 * BEYOND) : wide;
    return { index, row: index % rows, left: index * apart - own / 2, width: own };
  });
}

/** A quantity over the steps as points of a polyline in a box: highest at the top, and nought is kept in it. */
export function curve(values: readonly number[], at: readonly number[], width: number, height: number): string {
  const low = Math.min(0, ...values);
  const high = Math.max(...values, low + 1e-9);
  return values
    .map((value, i) => `${((at[i] ?? 0) * width).toFixed(1)},${(height * (1 - (value - low) / (high - low))).toFixed(1)}`)
    .join(" ");
}
