// One part of the turning view: its mesh, how it moves, what colour it has.     (space/piece.ts)
import { BufferAttribute, BufferGeometry, Color, DoubleSide, DynamicDrawUsage, Mesh, MeshLambertMaterial, Vector3 } from "three";
import { colourOf } from "../colour";
import type { Part } from "../interface";
import { creased, picked } from "./crease";
import { floatsOf, wholesOf } from "./decode";
import type { Riding } from "./displace";
import { displace } from "./displace";
import type { Span } from "./times";
import { spanOf } from "./times";

/** The theme's tones of what is not coloured by its use; `glow` is added to all, so that dark is seen on dark. */
export type Tones = Record<Part["what"] | "glow", Color>;

const CHOSEN = 0.16; // more light on what is chosen
const SLACK = 0.45; // share of the ground in the tone of a rod that pulls nothing

export class Piece {
  readonly mesh: Mesh<BufferGeometry, MeshLambertMaterial>;
  /** Of a bellows: how it lies; null for everything else. */
  readonly span: Span | null;
  private readonly riding: Riding;
  private readonly place: BufferAttribute;
  private readonly above: Vector3;
  private readonly nearest: number;

  constructor(readonly part: Part) {
    const skin = creased(floatsOf(part.position), wholesOf(part.index));
    const node = part.node === "" ? new Uint32Array() : wholesOf(part.node);
    const share = part.share === "" ? new Float32Array() : floatsOf(part.share);
    const rides = node.length > 0;
    this.riding = {
      rest: skin.position,
      node: rides ? Uint32Array.from(skin.from, (old) => node[old]!) : node,
      share: rides ? picked(share, skin.from, 1) : share,
    };
    this.span = part.what === "bellows" ? spanOf(this.riding) : null;
    this.place = new BufferAttribute(skin.position.slice(), 3).setUsage(DynamicDrawUsage);
    const geometry = new BufferGeometry();
    geometry.setAttribute("position", this.place);
    geometry.setAttribute("normal", new BufferAttribute(skin.normal, 3));
    geometry.setIndex(new BufferAttribute(skin.index, 1));
    geometry.computeBoundingBox();
    const box = geometry.boundingBox!;
    this.above = box.getCenter(new Vector3()).setZ(box.max.z);
    this.nearest = nearestTo(skin.position, box.getCenter(new Vector3()));
    this.mesh = new Mesh(geometry, new MeshLambertMaterial({ side: DoubleSide }));
    this.mesh.frustumCulled = false; // it moves, and a sphere around it would have to be found anew each time
  }

  move(movement: Float32Array | null, times: number): void {
    const into = this.place.array;
    if (!(into instanceof Float32Array)) return;
    if (movement === null) into.set(this.riding.rest);
    else displace(into, this.riding, movement, times);
    this.place.needsUpdate = true;
  }

  /** Colour by use where there is one; a rod that pulls nothing is pale. */
  paint(tones: Tones, use: number | null, chosen: boolean, slack: ReadonlySet<string>): void {
    const { what, id } = this.part;
    const { color, emissive } = this.mesh.material;
    if (use !== null && (what === "hold" || what === "bellows")) color.set(colourOf(use));
    else color.copy(tones[what]);
    if (what === "rod" && slack.has(id)) color.lerp(tones.hold, SLACK);
    emissive.copy(tones.glow);
    if (chosen) emissive.addScalar(CHOSEN);
  }

  /** Where the top of it is now. */
  top(into: Vector3): Vector3 {
    const [now, rest, k] = [this.place.array, this.riding.rest, 3 * this.nearest];
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

function nearestTo(position: Float32Array, at: Vector3): number {
  let [best, least] = [0, Infinity];
  for (let k = 0; k < position.length / 3; k++) {
    const away = Math.hypot(position[3 * k]! - at.x, position[3 * k + 1]! - at.y, position[3 * k + 2]! - at.z);
    if (away < least) [best, least] = [k, away];
  }
  return best;
}
