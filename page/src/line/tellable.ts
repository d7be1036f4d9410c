// Room around handles: how large each may be, and whose use is written beside it.     (line/tellable.ts)
import type { Place } from "../interface";
import { sortOf } from "./sorts";

export interface Spot {
  place: Place;
  x: number;
  y: number;
}

const WIDE = 38; // pixels that a written use needs
const HIGH = 16;

/** The ids whose use has room: what is chosen first, then anchors, then the fullest of the others. */
export function tellable(
  spots: readonly Spot[],
  uses: ReadonlyMap<string, number | null>,
  chosen: string,
): ReadonlySet<string> {
  const rank = ({ place }: Spot) => (place.id === chosen ? 3 : sortOf(place) === "anchor" ? 2 : (uses.get(place.id) ?? 0) / 10);
  const taken: Spot[] = [];
  const wanted = spots.filter((spot) => (uses.get(spot.place.id) ?? null) !== null);
  for (const spot of wanted.sort((a, b) => rank(b) - rank(a)))
    if (taken.every((one) => Math.abs(one.x - spot.x) >= WIDE || Math.abs(one.y - spot.y) >= HIGH)) taken.push(spot);
  return new Set(taken.map((spot) => spot.place.id));
}

const LARGEST = 24; // pixels a handle is wide
const SMALLEST = 9;

/** How wide each handle may be, so that none covers the middle of another one [pixels]. */
export function sizes(spots: readonly Spot[]): ReadonlyMap<string, number> {
  return new Map(
    spots.map((spot) => {
      const others = spots.filter((one) => one !== spot).map((one) => Math.hypot(one.x - spot.x, one.y - spot.y));
      return [spot.place.id, Math.max(Math.min(LARGEST, ...others), SMALLEST)];
    }),
  );
}
