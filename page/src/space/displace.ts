// How a solid's vertices ride on their line.     (space/displace.ts)

/**
 * Vertices at rest, and between which nodes of its line each rides.
 *
 * Vertex k moves with node[k] by 1 - share[k] and with the node after it by share[k]. Both are empty for what stands.
 */
export interface Riding {
  rest: Float32Array;
  node: Uint32Array;
  share: Float32Array;
}
