// A slider for a number that runs over decades.     (track/scale.ts)
const LEAST = 1;
const MOST = 500;
const FINE = 1000; // positions of the slider

/** The position of a number on the slider. */
export function positionOf(times: number): number {
  return Math.round((Math.log(times / LEAST) / Math.log(MOST / LEAST)) * FINE);
}

/** The number at a position, rounded to two figures. */
export function timesAt(position: number): number {
  const exact = LEAST * (MOST / LEAST) ** (position / FINE);
  const unit = 10 ** Math.max(Math.floor(Math.log10(exact)) - 1, 0);
  return Math.min(Math.max(Math.round(exact / unit) * unit, LEAST), MOST);
}

export const POSITIONS = FINE;
