// Where a solid's vertices are once the line has moved.     (space/displace.ts)

/**
 * How vertices ride on a line: at rest, and between which nodes.
 *
 * Vertex k moves with node[k] by 1 - share[k] and with the node after it by share[k]. Both are empty for what stands.
 */
export interface Riding {
  rest: Float32Array;
  node: Uint32Array;
  share: Float32Array;
}

/** Write the moved vertices. `movement`: x y z of every node [m]; `times`: how many times as far they are drawn. */
export function displace(into: Float32Array, riding: Riding, movement: Float32Array, times: number): void {
  const { rest, node, share } = riding;
  if (node.length === 0) {
    into.set(rest);
    return;
  }
  const last = movement.length - 3;
  for (let k = 0; k < node.length; k++) {
    const near = 3 * node[k]!;
    const far = near < last ? near + 3 : near;
    const part = share[k]!;
    for (let j = 0; j < 3; j++) {
      const moved = movement[near + j]! * (1 - part) + movement[far + j]! * part;
      into[3 * k + j] = rest[3 * k + j]! + times * moved;
    }
  }
}
