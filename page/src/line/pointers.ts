// Hands on the picture: one moves it, two zoom it, a wheel zooms it.     (line/pointers.ts)
import type { Frame, Size } from "./frame";
import { panned, zoomed } from "./frame";

interface Point {
  x: number;
  y: number;
}

/** What the hands need of the picture. */
export interface Picture {
  sheet: () => Size;
  room: () => Size;
  frame: () => Frame;
  least: () => number;
  set: (frame: Frame) => void;
  corner: () => Point;
  /** A press that moved nothing. */
  pressed: (at: Point, event: PointerEvent) => void;
}

const STILL = 4; // pixels that a press may tremble

/** Follow pointers and the wheel on an element; the answer ends it. */
export function follow(element: HTMLElement, picture: Picture): () => void {
  const down = new Map<number, Point>();
  let began: Point | null = null;
  const at = (event: MouseEvent): Point => {
    const corner = picture.corner();
    return { x: event.clientX - corner.x, y: event.clientY - corner.y };
  };
  const onDown = (event: PointerEvent) => {
    if (event.button !== 0 || (event.target instanceof Element && event.target.closest("button") !== null)) return;
    element.setPointerCapture(event.pointerId);
    down.set(event.pointerId, at(event));
    began = down.size === 1 ? at(event) : null;
  };
  const onMove = (event: PointerEvent) => {
    const before = down.get(event.pointerId);
    if (before === undefined) return;
    const now = at(event);
    const other = [...down].find(([id]) => id !== event.pointerId)?.[1];
    if (began !== null && distance(began, now) < STILL) return;
    began = null;
    if (other === undefined) picture.set(panned(picture.frame(), now.x - before.x, now.y - before.y, picture.sheet()));
    else pinch(picture, other, before, now);
    down.set(event.pointerId, now);
  };
  const onUp = (event: PointerEvent) => {
    if (began !== null && down.has(event.pointerId) && event.type === "pointerup") picture.pressed(began, event);
    began = null;
    down.delete(event.pointerId);
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

function pinch(picture: Picture, other: Point, before: Point, now: Point): void {
  const was = distance(other, before);
  if (was === 0) return;
  const middle = { x: (other.x + now.x) / 2, y: (other.y + now.y) / 2 };
  picture.set(zoomed(picture.frame(), distance(other, now) / was, middle, picture.room(), picture.least()));
}

function distance(a: Point, b: Point): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}
