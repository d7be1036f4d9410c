// Hands on the picture: one moves it, two zoom it, a wheel zooms it.     (line/pointers.ts)
import type { Frame, Size } from "./frame";
import { panned, zoomed } from "./frame";

interface Point {
  x: number;
  y: number;
}

interface Finger extends Point {
  /** It came down on a place, which it moves by itself while no other finger is there. */
  onPlace: boolean;
}

/** What the hands need of the picture. */
export interface Picture {
  sheet: () => Size;
  room: () => Size;
  frame: () => Frame;
  least: () => number;
  set: (frame: Frame) => void;
  corner: () => Point;
  /** Whether two fingers are on it: a place that one of them touches is then not picked up. */
  together: (two: boolean) => void;
  /** A press that moved nothing. */
  pressed: (at: Point, event: PointerEvent) => void;
}

const STILL = 4; // pixels that a press may tremble

/** Follow pointers and the wheel on an element; the answer ends it. */
export function follow(element: HTMLElement, picture: Picture): () => void {
  const down = new Map<number, Finger>();
  let began: Point | null = null;
  const at = (event: MouseEvent): Point => {
    const corner = picture.corner();
    return { x: event.clientX - corner.x, y: event.clientY - corner.y };
  };
  const onDown = (event: PointerEvent) => {
    const button = event.target instanceof Element ? event.target.closest("button") : null;
    const onPlace = button?.classList.contains("handle") === true && event.pointerType === "touch";
    if (event.button !== 0 || (button !== null && !onPlace)) return;
    if (!onPlace) element.setPointerCapture(event.pointerId);
    down.set(event.pointerId, { ...at(event), onPlace });
    began = down.size === 1 && !onPlace ? at(event) : null;
    if (down.size > 1) picture.together(true);
  };
  const onMove = (event: PointerEvent) => {
    const before = down.get(event.pointerId);
    if (before === undefined) return;
    const now = at(event);
    const other = [...down].find(([id]) => id !== event.pointerId)?.[1];
    if (began !== null && distance(began, now) < STILL) return;
    began = null;
    if (other !== undefined) pinch(picture, other, before, now);
    else if (!before.onPlace) pan(picture, before, now);
    down.set(event.pointerId, { ...now, onPlace: before.onPlace });
  };
  const onUp = (event: PointerEvent) => {
    if (began !== null && down.has(event.pointerId) && event.type === "pointerup") picture.pressed(began, event);
    began = null;
    down.delete(event.pointerId);
    if (down.size === 0) picture.together(false);
  };
  const onWheel = (event: WheelEvent) => {
    event.preventDefault();
    const by = Math.exp(-event.deltaY * (event.deltaMode === 1 ? 0.05 : 0.0015));
    picture.set(zoomed(picture.frame(), by, at(event), picture.room(), picture.least()));
  };
  return listen(element, onDown, onMove, onUp, onWheel);
}

function listen(
  element: HTMLElement,
  onDown: (event: PointerEvent) => void,
  onMove: (event: PointerEvent) => void,
  onUp: (event: PointerEvent) => void,
  onWheel: (event: WheelEvent) => void,
): () => void {
  const ends = new AbortController();
  const { signal } = ends;
  element.addEventListener("pointerdown", onDown, { signal });
  element.addEventListener("pointermove", onMove, { signal });
  element.addEventListener("pointerup", onUp, { signal });
  element.addEventListener("pointercancel", onUp, { signal });
  element.addEventListener("wheel", onWheel, { signal, passive: false });
  return () => ends.abort();
}

function pan(picture: Picture, before: Point, now: Point): void {
  picture.set(panned(picture.frame(), now.x - before.x, now.y - before.y, picture.sheet()));
}

/** What is between two fingers stays between them. */
function pinch(picture: Picture, other: Point, before: Point, now: Point): void {
  const was = distance(other, before);
  if (was === 0) return;
  const middle = between(other, now);
  pan(picture, between(other, before), middle);
  picture.set(zoomed(picture.frame(), distance(other, now) / was, middle, picture.room(), picture.least()));
}

function between(a: Point, b: Point): Point {
  return { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
}

function distance(a: Point, b: Point): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}
