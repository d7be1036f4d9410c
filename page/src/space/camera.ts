// Where the eye stands: far enough that all is seen, and turned step by step.     (space/camera.ts)

const STEEPEST = Math.PI / 2 - 1e-4; // straight above, the picture's own up would be lost

export type Triple = readonly [number, number, number];

/** A look at a line, from a direction and from above; both in radians, the direction from east towards north. */
export interface Eye {
  around: number;
  above: number;
}

export type EyeName = "turned" | "plan" | "side";

const DEGREE = Math.PI / 180;

/** The eyes for a box of these sides [m]: a line is seen across its length, be it east and west or north and south. */
export function eyesFor(sides: Triple): Record<EyeName, Eye> {
  const across = sides[0] >= sides[1] ? -90 * DEGREE : 0;
  return {
    turned: { around: across + 20 * DEGREE, above: 24 * DEGREE },
    plan: { around: -90 * DEGREE, above: STEEPEST },
    side: { around: across, above: 0 },
  };
}

/** The unit vector from what is looked at to the eye; x east, y north, z up. */
export function towardsEye(eye: Eye): Triple {
  const flat = Math.cos(eye.above);
  return [flat * Math.cos(eye.around), flat * Math.sin(eye.around), Math.sin(eye.above)];
}

/** The eye's own right and up for a direction in which it looks. */
export function axesOf(eye: Eye): { right: Triple; up: Triple } {
  const [x, y, z] = towardsEye(eye);
  const right: Triple = [-Math.sin(eye.around), Math.cos(eye.around), 0];
  const up: Triple = [y * right[2] - z * right[1], z * right[0] - x * right[2], x * right[1] - y * right[0]];
  return { right, up };
}

/**
 * How far the eye must stand from the middle of a box, so that the whole box is seen.
 *
 * `half`: half its sides [m]; `slope`: of the picture's upper edge, the tangent of half its angle; `wide`: its width
 * over its height.
 */
export function distanceFor(half: Triple, eye: Eye, slope: number, wide: number): number {
  const { right, up } = axesOf(eye);
  const away = towardsEye(eye);
  let most = 0;
  for (const corner of CORNERS) {
    const at: Triple = [corner[0] * half[0], corner[1] * half[1], corner[2] * half[2]];
    const across = Math.max(Math.abs(dot(at, right)) / wide, Math.abs(dot(at, up))) / slope;
    most = Math.max(most, across + dot(at, away));
  }
  return most;
}

/** How far anything is drawn from where it lies, along each axis; movements are x y z of one after the other. */
export function reachOf(movements: Iterable<Float32Array>, times: number): Triple {
  const most: [number, number, number] = [0, 0, 0];
  for (const all of movements)
    all.forEach((value, k) => {
      const axis = k % 3 === 0 ? 0 : k % 3 === 1 ? 1 : 2;
      most[axis] = Math.max(most[axis], Math.abs(value) * times);
    });
  return most;
}

/** Half the sides of what must be seen: of the line with room for labels, or of what is drawn moved where that is more. */
export function halfFor(sides: Triple, room: number, reach: Triple): Triple {
  const half = (axis: 0 | 1 | 2) => Math.max(0.5 * sides[axis] * room, 0.5 * sides[axis] + reach[axis]);
  return [half(0), half(1), half(2)];
}

const CORNERS: readonly Triple[] = [-1, 1].flatMap((x) =>
  [-1, 1].flatMap((y) => [-1, 1].map((z): Triple => [x, y, z])),
);

function dot(a: Triple, b: Triple): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

/** The eye turned around the line and up or down, never over the top. */
export function turned(eye: Eye, around: number, above: number): Eye {
  return { around: eye.around + around, above: Math.min(Math.max(eye.above + above, -STEEPEST), STEEPEST) };
}
