// One part of the turning view: its mesh, how it moves, what colour it has.     (space/piece.ts)
import type { Color, Quaternion } from "three";
import { BufferAttribute, BufferGeometry, DoubleSide, DynamicDrawUsage, Mesh, MeshLambertMaterial, Vector3 } from "three";
import { colourOf } from "../colour";
import type { Part } from "../interface";
import { creased, picked } from "./crease";
import { floatsOf, wholesOf } from "./decode";
import type { Riding } from "./displace";
import type { Rings, Skins } from "./rings";
import { movedMiddles, place, ringsOf, turnsBetween, turnsOf } from "./rings";
import type { Span } from "./times";
import { spanOf } from "./times";

/** The theme's tones of what is not coloured by its use; `glow` is added to all, so that dark is seen on dark. */
export type Tones = Record<Part["what"] | "glow", Color>;

const CHOSEN = 0.16; // more light on what is chosen
const SLACK = 0.45; // share of the ground in the tone of a rod that pulls nothing

/** An end of something that rides on its line: where on it, and how it is turned. */
export interface End {
  place: number;
  turn: Quaternion;
}

export interface Ends {
  first: End;
  last: End;
}

export class Piece {
  readonly mesh: Mesh<BufferGeometry, MeshLambertMaterial>;
  /** Of a bellows: how it lies; null for everything else. */
  readonly span: Span | null;
  /** The rings of what rides on its line; null for what stands. */
  readonly rings: Rings | null;
  private readonly skins: Skins;
  private readonly above: Vector3;
  private readonly nearest: number;

  constructor(readonly part: Part) {
    const skin = creased(floatsOf(part.position), wholesOf(part.index));
    const node = part.node === "" ? new Uint32Array() : wholesOf(part.node);
    const share = part.share === "" ? new Float32Array() : floatsOf(part.share);
    const rides = node.length > 0;
    const riding: Riding = {
      rest: skin.position,
      node: rides ? Uint32Array.from(skin.from, (old) => node[old]!) : node,
      share: rides ? picked(share, skin.from, 1) : share,
    };
    this.rings = ringsOf(riding);
    this.span = part.what === "bellows" ? spanOf(riding) : null;
    this.skins = {
      rest: skin.position,
      restNormal: skin.normal,
      into: skin.position.slice(),
      intoNormal: skin.normal.slice(),
    };
    const geometry = new BufferGeometry();
    geometry.setAttribute("position", new BufferAttribute(this.skins.into, 3).setUsage(DynamicDrawUsage));
    geometry.setAttribute("normal", new BufferAttribute(this.skins.intoNormal, 3).setUsage(DynamicDrawUsage));
    geometry.setIndex(new BufferAttribute(skin.index, 1));
    geometry.computeBoundingBox();
    const box = geometry.boundingBox!;
    this.above = box.getCenter(new Vector3()).setZ(box.max.z);
    this.nearest = nearestTo(skin.position, box.getCenter(new Vector3()));
    this.mesh = new Mesh(geometry, new MeshLambertMaterial({ side: DoubleSide }));
    this.mesh.frustumCulled = false; // it moves, and a sphere around it would have to be found anew each time
  }

  /** Move it as its line moves; return how its first and its last ring are turned, null where nothing rides. */
  move(movement: Float32Array, times: number): Ends | null {
    if (this.rings === null) return null;
    const moved = movedMiddles(this.rings, movement, times);
    const turns = turnsOf(this.rings, moved);
    this.write(moved, turns);
    return endsOf(this.rings, turns);
  }

  /** Move a bellows between two pipes that are turned so. */
  moveBetween(movement: Float32Array, times: number, first: Quaternion, last: Quaternion): void {
    if (this.rings === null) return;
    this.write(movedMiddles(this.rings, movement, times), turnsBetween(this.rings, first, last));
  }

  /** Put it back to where it lies. */
  lie(): void {
    this.skins.into.set(this.skins.rest);
    this.skins.intoNormal.set(this.skins.restNormal);
    this.changed();
  }

  private write(moved: Float32Array, turns: readonly Quaternion[]): void {
    if (this.rings !== null) place(this.skins, this.rings, moved, turns);
    this.changed();
  }

  private changed(): void {
    for (const name of ["position", "normal"]) {
      const attribute = this.mesh.geometry.getAttribute(name);
      if (attribute instanceof BufferAttribute) attribute.needsUpdate = true;
    }
  }

  /** Colour by use where there is one; a rod that pulls nothing is pale. */
  paint(tones: Tones, use: number | null, chosen: boolean, slack: ReadonlySet<string>): void {
    const { what, id } = this.part;
    const { color, emissive } = this.mesh.material;
    if (use !== null && (what === "hold" || what === "bellows" || what === "rod")) color.set(colourOf(use));
    else color.copy(tones[what]);
    if (use === null && what === "rod" && slack.has(id)) color.lerp(tones.hold, SLACK);
    emissive.copy(tones.glow);
    if (chosen) emissive.addScalar(CHOSEN);
  }

  /** Of how many corners it is. */
  get corners(): number {
    return this.skins.into.length / 3;
  }

  /** Where a corner of it is now. */
  corner(number: number, into: Vector3): Vector3 {
    return into.fromArray(this.skins.into, 3 * number);
  }

  /** Where the top of it is now. */
  top(into: Vector3): Vector3 {
    const [now, rest, k] = [this.skins.into, this.skins.rest, 3 * this.nearest];
    return into.set(now[k]! - rest[k]!, now[k + 1]! - rest[k + 1]!, now[k + 2]! - rest[k + 2]!).add(this.above);
  }

  /** Forget the sphere around it as it was, before something is looked for in it. */
  ready(): void {
    this.mesh.geometry.boundingSphere = null;
    this.mesh.geometry.boundingBox = null;
  }

  dispose(): void {
    this.mesh.removeFromParent();
    this.mesh.geometry.dispose();
    this.mesh.material.dispose();
  }
}

function endsOf(rings: Rings, turns: readonly Quaternion[]): Ends {
  const end = rings.place.length - 1;
  return { first: { place: rings.place[0]!, turn: turns[0]! }, last: { place: rings.place[end]!, turn: turns[end]! } };
}

function nearestTo(position: Float32Array, at: Vector3): number {
  let [best, least] = [0, Infinity];
  for (let k = 0; k < position.length / 3; k++) {
    const away = Math.hypot(position[3 * k]! - at.x, position[3 * k + 1]! - at.y, position[3 * k + 2]! - at.z);
    if (away < least) [best, least] = [k, away];
  }
  return best;
}
