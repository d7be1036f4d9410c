// A drawing of a line, alive: the server's sheet, what moves over it, and handles to move things by. (line/picture.tsx)
import { signal, useSignal, useSignalEffect } from "@preact/signals";
import { useEffect, useLayoutEffect, useRef } from "preact/hooks";
import type { View } from "../interface";
import { look } from "../store";
import { nearest } from "./along";
import { adding, addAt } from "./adding";
import type { Frame, Size } from "./frame";
import { fitted, panned, started, toSheet, viewBox, zoomed } from "./frame";
import { Handles } from "./handles";
import { Key } from "./key";
import { Ghost } from "./ghost";
import { pinching } from "./moving";
import { follow } from "./pointers";
import { contentOf, pieceOf } from "./svg";
import { ZoomButtons } from "./zoom";

/** How each drawing was last looked at; one that is not in it is fitted to the room there is, as is a "whole" one. */
const frames = signal<ReadonlyMap<string, Frame | "whole">>(new Map());
const NO_ROOM: Size = { width: 0, height: 0 };
const ZOOM = 1.25;
const PAN = 60; // pixels a key moves the picture

export function Picture({ view }: { view: View }) {
  const box = useRef<HTMLDivElement>(null);
  const room = useSignal(NO_ROOM);
  const pointer = useSignal<{ x: number; y: number } | null>(null);
  const latest = useRef(view);
  latest.current = view;
  const key = `${view.line} ${view.view}`;
  const fit = () => fitted(latest.current, room.peek());
  const frame = frameOf(frames.value.get(key), view, room.value);
  const set = (next: Frame | "whole") => (frames.value = new Map(frames.value).set(key, next));
  const current = () => frameOf(frames.peek().get(key), latest.current, room.peek());
  const zoom = (by: number, at = { x: room.peek().width / 2, y: room.peek().height / 2 }) =>
    set(zoomed(current(), by, at, room.peek(), fit().scale / 2));

  useLayoutEffect(() => watchSize(box.current, (size) => (room.value = size)), []);
  useEffect(() => {
    const element = box.current;
    if (element === null) return undefined;
    return follow(element, {
      sheet: () => latest.current,
      room: () => room.peek(),
      frame: current,
      least: () => fit().scale / 2,
      set,
      corner: () => element.getBoundingClientRect(),
      together: (two) => (pinching.value = two),
      pressed: (at, event) => {
        const near = nearest(latest.current.track, ...pair(toSheet(current(), at, room.peek())));
        if (near !== null && adding.peek() !== null) void addAt(near.station_m, event.altKey);
      },
    });
  }, [key]);

  const keys = (event: KeyboardEvent) => {
    if (event.target !== event.currentTarget || event.ctrlKey || event.metaKey) return;
    const pan = PANS[event.key];
    if (pan !== undefined) set(panned(current(), pan[0] * PAN, pan[1] * PAN, latest.current));
    else if (event.key === "+" || event.key === "=") zoom(ZOOM);
    else if (event.key === "-") zoom(1 / ZOOM);
    else if (event.key === "0") set("whole");
    else return;
    event.preventDefault();
  };
  const ready = room.value.width > 0;
  return (
    <div
      class={adding.value === null ? "picture" : "picture placing"}
      ref={box}
      tabIndex={0}
      role="group"
      aria-label={`${view.title}. Arrow keys move the picture, plus and minus zoom it, 0 fits it.`}
      onKeyDown={keys}
      onPointerMove={(event) => (pointer.value = pointerAt(event))}
      onPointerLeave={() => (pointer.value = null)}
    >
      {ready && <Sheet view={view} frame={frame} room={room.value} />}
      {ready && <Ghost view={view} frame={frame} room={room.value} pointer={pointer.value} />}
      {ready && <Handles view={view} frame={frame} room={room.value} corner={() => box.current?.getBoundingClientRect()} />}
      <Key />
      <ZoomButtons nearer={() => zoom(ZOOM)} farther={() => zoom(1 / ZOOM)} fit={() => set("whole")} />
    </div>
  );
}

function frameOf(kept: Frame | "whole" | undefined, view: View, room: Size): Frame {
  if (kept === undefined && view.view === "plan") return started(view, room); // a section has its table below it
  return kept === undefined || kept === "whole" ? fitted(view, room) : kept;
}

const PANS: Record<string, readonly [number, number]> = {
  ArrowLeft: [1, 0],
  ArrowRight: [-1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

function pair(point: { x: number; y: number }): [number, number] {
  return [point.x, point.y];
}

function pointerAt(event: PointerEvent): { x: number; y: number } | null {
  if (!(event.currentTarget instanceof Element)) return null;
  const corner = event.currentTarget.getBoundingClientRect();
  return { x: event.clientX - corner.x, y: event.clientY - corner.y };
}

function watchSize(element: Element | null, seen: (size: Size) => void): (() => void) | undefined {
  if (element === null) return undefined;
  const observer = new ResizeObserver(() => seen({ width: element.clientWidth, height: element.clientHeight }));
  observer.observe(element);
  return () => observer.disconnect();
}

/** The drawing itself, and over it what moves: a sheet of its own, so that only it is painted anew at each look. */
function Sheet({ view, frame, room }: { view: View; frame: Frame; room: Size }) {
  const base = useRef<SVGGElement>(null);
  const over = useRef<SVGGElement>(null);
  const { line, view: name } = view;
  useLayoutEffect(() => base.current?.replaceChildren(contentOf(view.svg)), [view.svg]);
  const which = useSignal({ line, name });
  if (which.peek().line !== line || which.peek().name !== name) which.value = { line, name };
  useSignalEffect(() => {
    const now = which.value;
    const overlay = look.value?.overlays.find((one) => one.line === now.line && one.view === now.name);
    over.current?.replaceChildren(pieceOf(overlay?.svg ?? ""));
  });
  const seen = { viewBox: viewBox(frame, room), width: room.width, height: room.height };
  return (
    <>
      <svg class="drawing" role="img" aria-label={view.title} {...seen}>
        <g ref={base} />
      </svg>
      <svg class="drawing overlay" aria-hidden="true" {...seen}>
        <g ref={over} />
      </svg>
    </>
  );
}
