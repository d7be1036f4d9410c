// Where labels stand: off what is drawn, near their place, none over another or over another's leader.     (space/spread.ts)

export interface Spot {
  x: number;
  y: number;
}

export interface Box extends Spot {
  width: number;
  height: number;
}

/** A label to be put: its size, the place that it is of, and where it stood before, if it did. */
export interface Wanted {
  width: number;
  height: number;
  at: Spot;
  before: Box | null;
}

export interface Room {
  width: number;
  height: number;
}

const OVER = 12; // pixels between a place and its label
const APART = 3; // pixels between labels
const CLEAR = 5; // pixels between a label and what is drawn
const RIM = 2;
const HIGH = [0, 1, 2, 3, 4, 5] as const; // heights of a label that it may stand over or under where it would
const STAYS = 40; // pixels: so much farther than the nearest a label may stay where it was, so that it does not hop

/** Where each label stands; the first have room before the others, and one without room is null. */
export function spread(wanted: readonly Wanted[], room: Room, drawn: readonly Spot[]): (Box | null)[] {
  const taken: { box: Box; leader: [Spot, Spot] | null }[] = [];
  return wanted.map((one) => {
    const open = ways(one, room).filter((box) => fits(box));
    const straight = open.filter((box) => !isCrossed(box, one.at));
    const free = straight.length > 0 ? straight : open;
    const clear = free.filter((box) => !drawn.some((spot) => holds(box, spot, CLEAR)));
    const found = (clear.length > 0 ? settled(clear, one) : free[0]) ?? null;
    if (found !== null) taken.push({ box: found, leader: leaderOf(found, one.at) });
    return found;
  });

  function fits(box: Box): boolean {
    const within = box.y >= RIM && box.y + box.height <= room.height - RIM;
    return within && !taken.some((other) => covers(box, other.box));
  }

  function isCrossed(box: Box, at: Spot): boolean {
    const own = leaderOf(box, at);
    return taken.some(
      (other) => (own !== null && crosses(own, other.box)) || (other.leader !== null && crosses(other.leader, box)),
    );
  }
}

/** Where a label may stand, the nearest first: over its place and under it, in the middle and to either side. */
function ways({ width, height, at }: Wanted, room: Room): Box[] {
  const found: Box[] = [];
  for (const aside of [0, width / 2 + OVER, -width / 2 - OVER]) {
    const x = Math.min(Math.max(at.x + aside - width / 2, RIM), Math.max(room.width - width - RIM, RIM));
    for (const high of HIGH) {
      const off = high * (height + APART);
      found.push({ x, y: at.y - OVER - height - off, width, height }, { x, y: at.y + OVER + off, width, height });
    }
    if (aside !== 0) found.push({ x, y: at.y - height / 2, width, height });
  }
  return found.sort((a, b) => farness(a, at) - farness(b, at));
}

/** The nearest, or where it stood, if that is not much farther. */
function settled(free: readonly Box[], { at, before }: Wanted): Box | undefined {
  const nearest = free[0];
  if (before === null || nearest === undefined) return nearest;
  const same = free.find((box) => Math.sign(box.y - at.y) === Math.sign(before.y - at.y) && apart(box, before) < STAYS / 2);
  return same !== undefined && farness(same, at) < farness(nearest, at) + STAYS ? same : nearest;
}

function apart(a: Spot, b: Spot): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}

/** How far the middle of a box is from a place; downwards counts a little more, so that labels stand over the line. */
function farness(box: Box, at: Spot): number {
  const [x, y] = [box.x + box.width / 2 - at.x, box.y + box.height / 2 - at.y];
  return Math.hypot(x / 2, y) + (y > 0 ? 1 : 0);
}

/** The line from a place to its label; null where the label stands right beside it. */
export function leaderOf(box: Box, at: Spot): [Spot, Spot] | null {
  const end = {
    x: Math.min(Math.max(at.x, box.x), box.x + box.width),
    y: Math.min(Math.max(at.y, box.y), box.y + box.height),
  };
  return apart(end, at) < 1 ? null : [at, end];
}

function covers(a: Box, b: Box): boolean {
  const across = a.x < b.x + b.width + APART && b.x < a.x + a.width + APART;
  return across && a.y < b.y + b.height + APART && b.y < a.y + a.height + APART;
}

function holds(box: Box, { x, y }: Spot, by: number): boolean {
  return x > box.x - by && x < box.x + box.width + by && y > box.y - by && y < box.y + box.height + by;
}

/** Whether a line goes through a box: cut off at each side of it in turn, something is left. */
export function crosses([from, to]: [Spot, Spot], box: Box): boolean {
  let [low, high] = [0, 1];
  const sides: [number, number, number, number][] = [
    [from.x, to.x - from.x, box.x, box.x + box.width],
    [from.y, to.y - from.y, box.y, box.y + box.height],
  ];
  for (const [start, way, least, most] of sides) {
    if (way === 0 && (start <= least || start >= most)) return false;
    if (way === 0) continue;
    const [a, b] = [(least - start) / way, (most - start) / way];
    low = Math.max(low, Math.min(a, b));
    high = Math.min(high, Math.max(a, b));
  }
  return low < high;
}
