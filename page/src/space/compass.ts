// Which way is north, east and up in the turning view.     (space/compass.ts)
import type { Eye, Triple } from "./camera";
import { axesOf } from "./camera";

const ARM = 17; // pixels
const SHORTEST = 0.25; // of an arm: an axis that points at the eye is not written

/** An axis as it is seen: its name, where its tip is, and whether it is seen from the side enough to be written. */
export interface Arm {
  name: string;
  x: number;
  y: number;
  seen: boolean;
}

const AXES: readonly { name: string; way: Triple }[] = [
  { name: "E", way: [1, 0, 0] },
  { name: "N", way: [0, 1, 0] },
  { name: "up", way: [0, 0, 1] },
];

/** The axes as the eye sees them; y downwards. */
export function armsOf(eye: Eye): Arm[] {
  const { right, up } = axesOf(eye);
  return AXES.map(({ name, way }) => {
    const [x, y] = [ARM * along(way, right), -ARM * along(way, up)];
    return { name, x, y, seen: Math.hypot(x, y) > SHORTEST * ARM };
  });
}

function along(a: Triple, b: Triple): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}
