// The rings that a solid along a line is made of: each turns as the line's own way turns.     (space/rings.ts)
import { Matrix3, Matrix4, Quaternion, Vector3 } from "three";
import type { Riding } from "./displace";

/** Rings along a line: where each is on it, its middle, which way the line goes there, and whose ring a vertex is. */
export interface Rings {
  place: Float64Array;
  centre: Float32Array;
  way: Float32Array;
  of: Uint32Array;
}

const FINE = 1e4; // places that are nearer than a ten-thousandth of the way between two nodes are one

/** The rings of a solid that rides on its line; null where it stands, or is but one ring. */
export function ringsOf(riding: Riding): Rings | null {
  const { rest, node, share } = riding;
  const keys = Array.from(node, (near, k) => Math.round((near + share[k]!) * FINE));
  const sorted = [...new Set(keys)].sort((a, b) => a - b);
  if (sorted.length < 2) return null;
  const numbers = new Map(sorted.map((key, number) => [key, number]));
  const of = Uint32Array.from(keys, (key) => numbers.get(key)!);
  const centre = middles(rest, of, sorted.length);
  return { place: Float64Array.from(sorted, (key) => key / FINE), centre, way: waysOf(centre), of };
}

/** Middles of the boxes around the vertices of each ring: a ring may have more vertices on one side than on another. */
function middles(rest: Float32Array, of: Uint32Array, count: number): Float32Array {
  const low = new Float32Array(3 * count).fill(Infinity);
  const high = new Float32Array(3 * count).fill(-Infinity);
  for (let k = 0; k < of.length; k++) {
    for (let j = 0; j < 3; j++) {
      const [at, value] = [3 * of[k]! + j, rest[3 * k + j]!];
      low[at] = Math.min(low[at]!, value);
      high[at] = Math.max(high[at]!, value);
    }
  }
  return low.map((value, at) => (value + high[at]!) / 2);
}

/** Which way a row of middles goes at each of them, as unit vectors. */
export function waysOf(centre: Float32Array): Float32Array {
  const count = centre.length / 3;
  const ways = new Float32Array(centre.length);
  const way = new Vector3();
  for (let k = 0; k < count; k++) {
    const a = 3 * Math.max(k - 1, 0);
    const b = 3 * Math.min(k + 1, count - 1);
    way.set(centre[b]! - centre[a]!, centre[b + 1]! - centre[a + 1]!, centre[b + 2]! - centre[a + 2]!).normalize();
    way.toArray(ways, 3 * k);
  }
  return ways;
}

/** Middles of the rings once the line has moved, so many times as far. */
export function movedMiddles(rings: Rings, movement: Float32Array, times: number): Float32Array {
  const last = movement.length - 3;
  const moved = new Float32Array(rings.centre.length);
  for (let k = 0; k < rings.place.length; k++) {
    const place = rings.place[k]!;
    const near = 3 * Math.floor(place);
    const far = near < last ? near + 3 : near;
    const share = place - Math.floor(place);
    for (let j = 0; j < 3; j++) {
      const by = movement[near + j]! * (1 - share) + movement[far + j]! * share;
      moved[3 * k + j] = rings.centre[3 * k + j]! + times * by;
    }
  }
  return moved;
}

/** How each ring of a pipe is turned: as little as brings its old way into the new one. */
export function turnsOf(rings: Rings, moved: Float32Array): Quaternion[] {
  const ways = waysOf(moved);
  const [before, after] = [new Vector3(), new Vector3()];
  return Array.from(rings.place, (_, k) => {
    before.fromArray(rings.way, 3 * k);
    after.fromArray(ways, 3 * k);
    return new Quaternion().setFromUnitVectors(before, after);
  });
}

/** How each ring of a bellows is turned: evenly from the pipe before it to the pipe after it. */
export function turnsBetween(rings: Rings, first: Quaternion, last: Quaternion): Quaternion[] {
  const [from, to] = [rings.place[0]!, rings.place[rings.place.length - 1]!];
  return Array.from(rings.place, (place) => first.clone().slerp(last, (place - from) / (to - from)));
}

/** Vertices and normals as they lie and as they are written. */
export interface Skins {
  rest: Float32Array;
  restNormal: Float32Array;
  into: Float32Array;
  intoNormal: Float32Array;
}

/** Write vertices and normals with their rings moved and turned. */
export function place(skins: Skins, rings: Rings, moved: Float32Array, turns: readonly Quaternion[]): void {
  const four = new Matrix4();
  const matrices = turns.map((turn) => new Matrix3().setFromMatrix4(four.makeRotationFromQuaternion(turn)).elements);
  const { rest, restNormal, into, intoNormal } = skins;
  for (let k = 0; k < rings.of.length; k++) {
    const at = 3 * k;
    const c = 3 * rings.of[k]!;
    const m = matrices[rings.of[k]!]!;
    const x = rest[at]! - rings.centre[c]!;
    const y = rest[at + 1]! - rings.centre[c + 1]!;
    const z = rest[at + 2]! - rings.centre[c + 2]!;
    const a = restNormal[at]!;
    const b = restNormal[at + 1]!;
    const d = restNormal[at + 2]!;
    for (let j = 0; j < 3; j++) {
      into[at + j] = moved[c + j]! + m[j]! * x + m[j + 3]! * y + m[j + 6]! * z;
      intoNormal[at + j] = m[j]! * a + m[j + 3]! * b + m[j + 6]! * d;
    }
  }
}
