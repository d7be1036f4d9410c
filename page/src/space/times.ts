// How many times as far movements may be drawn before a bellows would be drawn inside out.     (space/times.ts)
import type { Riding } from "./displace";

/** A bellows as it rides: at which places of its line both ends are, which way it lies, and how long it is drawn [m]. */
export interface Span {
  first: number;
  last: number;
  way: readonly [number, number, number];
  length: number;
}

const LEFT = 0.5; // of its length that a bellows keeps at least, so that it is still seen as one

/** The span of a solid that rides on its line; null where it stands. */
export function spanOf(riding: Riding): Span | null {
  const { rest, node, share } = riding;
  if (node.length === 0) return null;
  const places = Array.from(node, (near, k) => near + share[k]!);
  const first = places.reduce((a, b) => Math.min(a, b));
  const last = places.reduce((a, b) => Math.max(a, b));
  const [a, b] = [first, last].map((end) => middleAt(rest, places, end));
  const [x, y, z] = [0, 1, 2].map((j) => b![j]! - a![j]!);
  const length = Math.hypot(x!, y!, z!);
  return length === 0 ? null : { first, last, way: [x! / length, y! / length, z! / length], length };
}

function middleAt(rest: Float32Array, places: readonly number[], end: number): number[] {
  const sum = [0, 0, 0];
  let count = 0;
  places.forEach((place, k) => {
    if (Math.abs(place - end) > SAME) return;
    count += 1;
    for (let j = 0; j < 3; j++) sum[j]! += rest[3 * k + j]!;
  });
  return sum.map((one) => one / count);
}

const SAME = 1e-4; // of the way from node to node: float32 has seven figures

/** The most times that a movement may be drawn; Infinity where nothing is pressed together. */
export function mostTimes(span: Span, movement: Float32Array): number {
  const [a, b] = [movedAt(movement, span.first), movedAt(movement, span.last)];
  const longer = span.way.reduce((sum, way, j) => sum + way * (b[j]! - a[j]!), 0);
  return longer < 0 ? ((1 - LEFT) * span.length) / -longer : Infinity;
}

function movedAt(movement: Float32Array, place: number): number[] {
  const near = Math.floor(place);
  const far = 3 * near + 3 < movement.length ? near + 1 : near;
  const share = place - near;
  return [0, 1, 2].map((j) => movement[3 * near + j]! * (1 - share) + movement[3 * far + j]! * share);
}

/** The most times as a person would say it: no more than that, with two figures at most. */
export function spoken(times: number): number {
  if (times < 1 || times === Infinity) return times;
  const unit = 10 ** Math.max(Math.floor(Math.log10(times)) - 1, 0);
  return Math.floor(times / unit) * unit;
}
