// Normals of a solid: smooth over what is round, and an edge where it is an edge.     (space/crease.ts)

/** A solid with as many vertices as its light needs; `from` says which vertex of the solid each one was. */
export interface Skin {
  position: Float32Array<ArrayBuffer>;
  normal: Float32Array<ArrayBuffer>;
  index: Uint32Array<ArrayBuffer>;
  from: Uint32Array<ArrayBuffer>;
}

const ROUND = Math.cos((50 * Math.PI) / 180); // faces that turn by less are one round face

/**
 * Give each vertex one normal for each group of faces that meet roundly in it.
 *
 * A vertex of an edge becomes several, one for each side, so that a box keeps its edges and a pipe stays round.
 */
export function creased(position: Float32Array, index: Uint32Array): Skin {
  const faces = normalsOfFaces(position, index);
  const split = new Splitter(position.length / 3);
  const next = new Uint32Array(index.length);
  for (let corner = 0; corner < index.length; corner++) {
    const face = 3 * Math.floor(corner / 3);
    next[corner] = split.vertexFor(index[corner]!, faces[face]!, faces[face + 1]!, faces[face + 2]!);
  }
  const from = Uint32Array.from(split.from);
  return { position: picked(position, from, 3), normal: split.normals(), index: next, from };
}

/** The values of some vertices, so many for each. */
export function picked(values: Float32Array, from: Uint32Array, each: number): Float32Array<ArrayBuffer> {
  const found = new Float32Array(from.length * each);
  for (let k = 0; k < from.length; k++) {
    for (let j = 0; j < each; j++) found[k * each + j] = values[from[k]! * each + j]!;
  }
  return found;
}

/** Normals of triangles, as long as twice their areas; of none for a triangle without an area. */
function normalsOfFaces(position: Float32Array, index: Uint32Array): Float64Array {
  const normals = new Float64Array(index.length);
  for (let k = 0; k < index.length; k += 3) {
    const [a, b, c] = [3 * index[k]!, 3 * index[k + 1]!, 3 * index[k + 2]!];
    const [ux, uy, uz] = difference(position, b, a);
    const [vx, vy, vz] = difference(position, c, a);
    normals[k] = uy * vz - uz * vy;
    normals[k + 1] = uz * vx - ux * vz;
    normals[k + 2] = ux * vy - uy * vx;
  }
  return normals;
}

function difference(position: Float32Array, one: number, other: number): [number, number, number] {
  return [
    position[one]! - position[other]!,
    position[one + 1]! - position[other + 1]!,
    position[one + 2]! - position[other + 2]!,
  ];
}

/** Vertices as they are split, each with the sum of the normals of its faces. */
class Splitter {
  readonly from: number[] = [];
  private readonly sums: number[] = [];
  private readonly groups: number[][];

  constructor(count: number) {
    this.groups = Array.from({ length: count }, () => []);
  }

  /** The vertex for a face with this normal at an old vertex: one whose faces it continues, or a new one. */
  vertexFor(old: number, x: number, y: number, z: number): number {
    const group = this.groups[old]!;
    const found = group.find((vertex) => this.continues(vertex, x, y, z));
    const vertex = found ?? this.added(old, group);
    this.sums[3 * vertex]! += x;
    this.sums[3 * vertex + 1]! += y;
    this.sums[3 * vertex + 2]! += z;
    return vertex;
  }

  private continues(vertex: number, x: number, y: number, z: number): boolean {
    const [a, b, c] = [this.sums[3 * vertex]!, this.sums[3 * vertex + 1]!, this.sums[3 * vertex + 2]!];
    const lengths = Math.hypot(a, b, c) * Math.hypot(x, y, z);
    return lengths === 0 || a * x + b * y + c * z >= ROUND * lengths;
  }

  private added(old: number, group: number[]): number {
    const vertex = this.from.length;
    this.from.push(old);
    this.sums.push(0, 0, 0);
    group.push(vertex);
    return vertex;
  }

  /** Unit normals of all vertices. */
  normals(): Float32Array<ArrayBuffer> {
    const found = new Float32Array(this.sums.length);
    for (let k = 0; k < found.length; k += 3) {
      const length = Math.hypot(this.sums[k]!, this.sums[k + 1]!, this.sums[k + 2]!) || 1;
      for (let j = 0; j < 3; j++) found[k + j] = this.sums[k + j]! / length;
    }
    return found;
  }
}
