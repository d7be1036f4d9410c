// The line in space: parts, light, eye. It draws when something has changed, and never else.     (space/stage.ts)
import {
  Box3,
  Color,
  DirectionalLight,
  HemisphereLight,
  PerspectiveCamera,
  Raycaster,
  Scene,
  Vector2,
  Vector3,
  WebGLRenderer,
} from "three";
import { OrbitControls } from "three/addons/controls/OrbitControls.js";
import { fullestOf } from "../carried";
import type { Look, Solids } from "../interface";
import type { Eye, EyeName, Triple } from "./camera";
import { axesOf, distanceFor, eyesFor, halfFor, reachOf, towardsEye, turned } from "./camera";
import { moveAll } from "./moving";
import { Piece } from "./piece";
import type { Tones } from "./piece";
import type { Spot } from "./spread";
import { mostTimes, spoken } from "./times";

const ANGLE = 26; // degrees that the picture is high: little, so that what is parallel looks it
const ROOM = 1.12; // times the room that the line needs, so that labels stand beside it
const MOST_SPOTS = 3000; // of what is drawn, that labels stand off
const STILL = 5; // pixels that a press may tremble

/** Whether this browser can draw in space at all. */
export function canDraw(): boolean {
  return document.createElement("canvas").getContext("webgl2") !== null;
}

export interface Hooks {
  /** A part was pressed; "" where there was none. */
  pressed: (id: string) => void;
  /** A picture was drawn. */
  drawn: () => void;
}

export class Stage {
  private readonly renderer: WebGLRenderer;
  private readonly scene = new Scene();
  private readonly camera = new PerspectiveCamera(ANGLE, 1, 0.1, 1000);
  private readonly controls: OrbitControls;
  private readonly ends = new AbortController();
  private readonly box = new Box3();
  private pieces: Piece[] = [];
  private eye: Eye = eyesFor([1, 0, 0]).turned;
  private most = Infinity; // times that movements may be drawn, by all that was shown of these parts
  private whole = true; // the eye has not been moved by hand since all was fitted
  private reach: Triple = [0, 0, 0]; // how far movements were drawn since all was fitted [m]
  private waiting = 0;
  private down: Vector2 | null = null;

  constructor(
    private readonly canvas: HTMLCanvasElement,
    private readonly hooks: Hooks,
  ) {
    this.renderer = new WebGLRenderer({ canvas, antialias: true, alpha: true });
    this.renderer.setPixelRatio(Math.min(devicePixelRatio, 2));
    this.camera.up.set(0, 0, 1);
    this.controls = new OrbitControls(this.camera, canvas);
    this.controls.enableDamping = false;
    this.controls.zoomToCursor = true;
    this.controls.addEventListener("change", () => this.changed());
    this.controls.addEventListener("start", () => (this.whole = false));
    this.light();
    this.listen();
  }

  private light(): void {
    const lamp = new DirectionalLight(0xffffff, 1.7);
    lamp.position.set(-0.5, 0.9, 1); // over the left shoulder
    this.camera.add(lamp);
    this.scene.add(this.camera, new HemisphereLight(0xffffff, 0xb9ae9c, 1.5));
  }

  private listen(): void {
    const { signal } = this.ends;
    this.canvas.addEventListener("pointerdown", (event) => (this.down = spot(event)), { signal });
    this.canvas.addEventListener("pointerup", (event) => this.up(event), { signal });
    this.canvas.addEventListener("webglcontextrestored", () => this.changed(), { signal });
  }

  /** Take other parts; the eye stays if these are of the same line. */
  build(solids: Solids, fresh: boolean): void {
    for (const piece of this.pieces) piece.dispose();
    this.pieces = solids.parts.map((part) => new Piece(part));
    for (const piece of this.pieces) this.scene.add(piece.mesh);
    this.box.min.fromArray(solids.low_m);
    this.box.max.fromArray(solids.high_m);
    this.most = Infinity;
    if (fresh) this.reach = [0, 0, 0];
    if (fresh) this.from("turned");
    else if (this.whole) this.see(this.eye);
    this.changed();
  }

  /** See all of it from one of the eyes. */
  from(name: EyeName): void {
    this.see(eyesFor(triple(this.box.getSize(new Vector3())))[name]);
  }

  /** Move the parts as a look says, and give them the colours of their use; return how many times as far. */
  show(look: Look | null, tones: Tones, chosen: string): number {
    const movements = new Map((look?.movements ?? []).map((one) => [one.line, Float32Array.from(one.movement_m)]));
    const uses = new Map([...(look?.holds ?? []), ...(look?.takeups ?? [])].map((one) => [one.id, one.use]));
    const slack = new Set((look?.takeups ?? []).filter((one) => one.rods.some((rod) => !rod.engaged)).map((one) => one.id));
    const carried = new Map((look?.takeups ?? []).map((one) => [one.id, fullestOf(one)]));
    const times = Math.min(look?.exaggeration ?? 1, this.allowed(movements));
    moveAll(this.pieces, movements, times);
    this.makeRoom(reachOf(movements.values(), times));
    for (const piece of this.pieces) {
      const { id, what } = piece.part;
      piece.paint(tones, (what === "rod" ? carried : uses).get(id) ?? null, piece.part.id === chosen && chosen !== "", slack);
    }
    this.changed();
    return times;
  }

  /** Stand farther off where what moves is drawn out of the picture; never nearer by itself, so that nothing jumps. */
  private makeRoom(now: Triple): void {
    const [x, y, z] = this.reach;
    if (now[0] <= x && now[1] <= y && now[2] <= z) return;
    this.reach = [Math.max(now[0], x), Math.max(now[1], y), Math.max(now[2], z)];
    if (this.whole) this.see(this.eye);
  }

  /** How many times as far may be drawn; it never grows again, so that a picture keeps its measure. */
  private allowed(movements: ReadonlyMap<string, Float32Array>): number {
    for (const { part, span } of this.pieces) {
      const movement = movements.get(part.line);
      if (span !== null && movement !== undefined) this.most = Math.min(this.most, spoken(mostTimes(span, movement)));
    }
    return this.most;
  }

  resize(width: number, height: number): void {
    if (width === 0 || height === 0) return;
    this.renderer.setSize(width, height, false);
    this.camera.aspect = width / height;
    if (this.whole) this.see(this.eye);
    this.camera.updateProjectionMatrix();
    this.draw(); // at once: a canvas that was resized is empty
  }

  private see(eye: Eye): void {
    this.eye = eye;
    this.whole = true;
    const half = halfFor(triple(this.box.getSize(new Vector3())), ROOM, this.reach);
    const slope = Math.tan((ANGLE / 2) * (Math.PI / 180));
    const distance = Math.max(distanceFor(half, eye, slope, this.camera.aspect), 0.5);
    this.stand(this.box.getCenter(new Vector3()), eye, distance);
  }

  fit(): void {
    this.see(this.now());
  }

  /** Turn by so many radians. */
  turn(around: number, above: number): void {
    this.whole = false;
    this.stand(this.controls.target, turned(this.now(), around, above), this.distance());
  }

  zoom(by: number): void {
    this.whole = false;
    this.stand(this.controls.target, this.now(), this.distance() / by);
  }

  /** Move what is seen by shares of the picture's height. */
  pan(right: number, up: number): void {
    this.whole = false;
    const axes = axesOf(this.now());
    const high = 2 * this.distance() * Math.tan((ANGLE / 2) * (Math.PI / 180));
    const target = this.controls.target.clone();
    target.addScaledVector(new Vector3(...axes.right), right * high).addScaledVector(new Vector3(...axes.up), up * high);
    this.stand(target, this.now(), this.distance());
  }

  /** Where the eye is now, as it was turned by hand or by keys. */
  now(): Eye {
    const away = this.camera.position.clone().sub(this.controls.target);
    const right = new Vector3(1, 0, 0).applyQuaternion(this.camera.quaternion); // straight above only it tells the way
    return { around: Math.atan2(-right.x, right.y), above: Math.atan2(away.z, Math.hypot(away.x, away.y)) };
  }

  private distance(): number {
    return this.camera.position.distanceTo(this.controls.target);
  }

  private stand(target: Vector3, eye: Eye, distance: number): void {
    this.eye = eye;
    this.controls.target.copy(target);
    this.camera.position.copy(target).addScaledVector(new Vector3(...towardsEye(eye)), distance);
    this.controls.update();
    this.changed();
  }

  /** Where a place is on the canvas [pixels]; null where it has no part, or lies behind the eye. */
  onCanvas(id: string): { x: number; y: number } | null {
    const piece = this.pieces.find((one) => one.part.id === id && one.part.what !== "rod");
    if (piece === undefined) return null;
    const at = piece.top(new Vector3()).project(this.camera);
    if (at.z > 1 || Math.abs(at.x) > 1 || Math.abs(at.y) > 1) return null;
    const { clientWidth, clientHeight } = this.canvas;
    return { x: (at.x + 1) * 0.5 * clientWidth, y: (1 - at.y) * 0.5 * clientHeight };
  }

  /** So many places of what is drawn, on the canvas [pixels], that nothing wider than a label lies between them. */
  drawnAt(): Spot[] {
    const { clientWidth, clientHeight } = this.canvas;
    const all = this.pieces.reduce((sum, piece) => sum + piece.corners, 0);
    const every = Math.max(Math.ceil(all / MOST_SPOTS), 1);
    const [found, at]: [Spot[], Vector3] = [[], new Vector3()];
    for (const piece of this.pieces) {
      for (let k = 0; k < piece.corners; k += every) {
        piece.corner(k, at).project(this.camera);
        if (Math.abs(at.x) > 1 || Math.abs(at.y) > 1 || at.z > 1) continue;
        found.push({ x: (at.x + 1) * 0.5 * clientWidth, y: (1 - at.y) * 0.5 * clientHeight });
      }
    }
    return found;
  }

  private up(event: PointerEvent): void {
    const began = this.down;
    this.down = null;
    if (began === null || event.button !== 0 || began.distanceTo(spot(event)) > STILL) return;
    const corner = this.canvas.getBoundingClientRect();
    const x = ((event.clientX - corner.x) / corner.width) * 2 - 1;
    const y = 1 - ((event.clientY - corner.y) / corner.height) * 2;
    const ray = new Raycaster();
    ray.setFromCamera(new Vector2(x, y), this.camera);
    for (const piece of this.pieces) piece.ready();
    const meshes = this.pieces.filter((piece) => piece.part.id !== "").map((piece) => piece.mesh);
    const hit = ray.intersectObjects(meshes, false)[0]?.object;
    this.hooks.pressed(this.pieces.find((piece) => piece.mesh === hit)?.part.id ?? "");
  }

  private changed(): void {
    if (this.waiting === 0) this.waiting = requestAnimationFrame(() => this.draw());
  }

  private draw(): void {
    cancelAnimationFrame(this.waiting);
    this.waiting = 0;
    const distance = this.distance();
    const size = this.box.getSize(new Vector3()).length();
    this.camera.near = Math.max(distance - size * 2, distance / 200);
    this.camera.far = distance + size * 3;
    this.camera.updateProjectionMatrix();
    this.renderer.render(this.scene, this.camera);
    this.hooks.drawn();
  }

  /** Give everything back. */
  dispose(): void {
    cancelAnimationFrame(this.waiting);
    this.ends.abort();
    this.controls.dispose();
    for (const piece of this.pieces) piece.dispose();
    this.renderer.dispose();
    this.renderer.forceContextLoss();
  }
}

const tones = new Map<string, Tones>();

/** The tones of a theme that is seen, from the page's own style. */
export function tonesOf(element: Element, theme: string): Tones {
  const found = tones.get(theme) ?? readTones(element);
  tones.set(theme, found);
  return found;
}

function readTones(element: Element): Tones {
  const style = getComputedStyle(element);
  const tone = (name: string) => new Color(style.getPropertyValue(`--space-${name}`).trim());
  return {
    pipe: tone("pipe"),
    joint: tone("joint"),
    bellows: tone("bellows"),
    hold: tone("hold"),
    rod: tone("rod"),
    glow: tone("glow"),
  };
}

function spot(event: PointerEvent): Vector2 {
  return new Vector2(event.clientX, event.clientY);
}

function triple(vector: Vector3): Triple {
  return [vector.x, vector.y, vector.z];
}
