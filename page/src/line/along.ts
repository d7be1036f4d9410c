// Stations along a drawn line: the nearest one to the pointer, where one lies, and snapping.     (line/along.ts)
import type { Corner, Place, TrackPoint } from "../interface";

export interface Near {
  station_m: number;
  x: number;
  y: number;
  /** From the point to the line [mm of the sheet]. */
  away: number;
}

export const SNAPS_M = [0.05, 0.1, 0.5, 1] as const;

/** The station of the drawn line that is nearest to a point; null where no line is drawn. */
export function nearest(track: readonly TrackPoint[], x: number, y: number): Near | null {
  let best: Near | null = null;
  for (let i = 0; i + 1 < track.length; i++) {
    const near = onPiece(track[i]!, track[i + 1]!, x, y);
    if (best === null || near.away < best.away) best = near;
  }
  return best;
}

function onPiece(a: TrackPoint, b: TrackPoint, x: number, y: number): Near {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const square = dx * dx + dy * dy;
  const share = square === 0 ? 0 : Math.min(Math.max(((x - a.x) * dx + (y - a.y) * dy) / square, 0), 1);
  const [px, py] = [a.x + share * dx, a.y + share * dy];
  return {
    station_m: a.station_m + share * (b.station_m - a.station_m),
    x: px,
    y: py,
    away: Math.hypot(x - px, y - py),
  };
}

/** Where a station is drawn; null where no line is drawn. */
export function placeOf(track: readonly TrackPoint[], station_m: number): { x: number; y: number } | null {
  const after = track.findIndex((point) => point.station_m >= station_m);
  const b = track[after === -1 ? track.length - 1 : after];
  if (b === undefined) return null;
  const a = track[Math.max((after === -1 ? track.length : after) - 1, 0)] ?? b;
  const length = b.station_m - a.station_m;
  const share = length === 0 ? 0 : Math.min((station_m - a.station_m) / length, 1);
  return { x: a.x + share * (b.x - a.x), y: a.y + share * (b.y - a.y) };
}

/** Which way the drawn line goes at a station, as a unit vector on the sheet. */
export function wayOf(track: readonly TrackPoint[], station_m: number): { x: number; y: number } {
  const index = track.findIndex((point, i) => i > 0 && point.station_m >= station_m);
  const b = track[index === -1 ? track.length - 1 : index];
  const a = track[(index === -1 ? track.length - 1 : index) - 1];
  if (a === undefined || b === undefined) return { x: 1, y: 0 };
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  return length === 0 ? { x: 1, y: 0 } : { x: (b.x - a.x) / length, y: (b.y - a.y) / length };
}

/** A station on the nearest step, or on a corner that is within reach; `step_m` 0 snaps to nothing. */
export function snap(station_m: number, step_m: number, corners: readonly Corner[], length_m: number): number {
  if (step_m === 0) return within(tidy(station_m), length_m);
  const reach = Math.max(step_m, CORNER_REACH_M);
  const corner = corners
    .filter((one) => Math.abs(one.station_m - station_m) < reach)
    .sort((a, b) => Math.abs(a.station_m - station_m) - Math.abs(b.station_m - station_m))[0];
  return within(corner?.station_m ?? tidy(Math.round(station_m / step_m) * step_m), length_m);
}

const CORNER_REACH_M = 0.3;

/** The next station by keys: so many places of the grid of steps on, in the way of the sign. */
export function stepped(station_m: number, step_m: number, steps: number, length_m: number): number {
  const at = station_m / step_m;
  const from = steps > 0 ? Math.floor(at + HAIR) : Math.ceil(at - HAIR);
  return within(tidy((from + steps) * step_m), length_m);
}

const HAIR = 1e-6; // of a step: what is so near to the grid lies on it

function within(station_m: number, length_m: number): number {
  return Math.min(Math.max(station_m, 0), length_m);
}

/** To a millimetre, so that no 46.500000001 reaches the file. */
function tidy(station_m: number): number {
  return Math.round(station_m * 1000) / 1000;
}

/** A station as it is written. */
export function stationText(station_m: number): string {
  return `${Number(station_m.toFixed(3))} m`;
}

/** A station as it is read in a list: of what a rule put there, whole centimetres. */
export function listedStation(place: Place, station_m: number): string {
  return place.placed_by === BY_HAND ? stationText(station_m) : `${Number(station_m.toFixed(2))} m`;
}

/** A name as it is read in a list: one made of a station by a rule has that in whole centimetres, as lists have it. */
export function listedName(place: Place): string {
  const made = place.placed_by === BY_HAND ? null : /^(.* at )(\d+\.\d{3,}) m$/.exec(place.name);
  return made === null ? place.name : `${made[1]}${Number(Number(made[2]).toFixed(2))} m`;
}

const BY_HAND = "by hand";
