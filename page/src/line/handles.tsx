// Handles on the drawing: every place can be chosen by them, and moved where it may be moved.     (line/handles.tsx)
import { useRef } from "preact/hooks";
import type { Place, View } from "../interface";
import { dragged } from "../looks";
import { chosen, places, uses, whyOf } from "../store";
import { listedName, listedStation, nearest, placeOf, stationText } from "./along";
import type { Frame, Size } from "./frame";
import { toRoom, toSheet } from "./frame";
import { giveUp, hold, lineOf, pinching, putDown, remove, stationNow, stepAlong } from "./moving";
import { UseChip } from "../use";
import { sortOf } from "./sorts";
import { sizes, tellable } from "./tellable";

interface Point {
  x: number;
  y: number;
}

interface Props {
  view: View;
  frame: Frame;
  room: Size;
  corner: () => DOMRect | undefined;
}

const LEGIBLE = 3.2; // pixels per mm of the sheet; below it a use would cover what the drawing says

export function Handles({ view, frame, room, corner }: Props) {
  const those = [...places.value.values()].filter((place) => place.line === view.line);
  those.sort((a, b) => a.station_m - b.station_m);
  const entry = those.find((place) => place.id === chosen.value) ?? those[0];
  const spots = those.flatMap((place) => {
    const at = whereOf(view, place);
    return at === null ? [] : [{ place, ...toRoom(frame, at, room) }];
  });
  const wide = sizes(spots);
  const shown = frame.scale >= LEGIBLE ? spots : spots.filter((spot) => spot.place.id === chosen.value);
  const told = tellable(shown, uses.value, chosen.value);
  const toStation = (event: PointerEvent, off: Point) => stationUnder(view, frame, room, corner(), event, off);
  return (
    <div class="handles" role="group" aria-label="Places on the line. Page Up and Page Down go from one to the next.">
      {spots.map(({ place, x, y }) => (
        <Handle
          key={place.id}
          place={place}
          x={x}
          y={y}
          entry={place === entry}
          off={offLine(view, place)}
          toStation={toStation}
          all={those}
          told={told.has(place.id)}
          size={wide.get(place.id) ?? 0}
        />
      ))}
    </div>
  );
}

/** At which stations the places lay when a drawing was first seen: so far its handles are right. */
const drawnAt = new WeakMap<View, ReadonlyMap<string, number>>();

function stationsOf(view: View): ReadonlyMap<string, number> {
  const known = drawnAt.get(view);
  if (known !== undefined) return known;
  const now = new Map([...places.value.values()].map((place) => [place.id, place.station_m] as const));
  drawnAt.set(view, now);
  return now;
}

/** Where a place is drawn: where the drawing has its sign, or on the line where it has moved since. */
function whereOf(view: View, place: Place): Point | null {
  const handle = view.handles.find((one) => one.id === place.id);
  const station = stationNow(place);
  if (handle !== undefined && stationsOf(view).get(place.id) === station) return handle;
  return placeOf(view.track, station) ?? handle ?? null;
}

/** How far the sign of a place is drawn from its station: signs that would cover each other are drawn apart. */
function offLine(view: View, place: Place): Point {
  const [sign, station] = [whereOf(view, place), placeOf(view.track, stationNow(place))];
  return sign === null || station === null ? { x: 0, y: 0 } : { x: sign.x - station.x, y: sign.y - station.y };
}

function stationUnder(
  view: View,
  frame: Frame,
  room: Size,
  corner: DOMRect | undefined,
  event: PointerEvent,
  off: Point,
): number | null {
  if (corner === undefined) return null;
  const point = toSheet(frame, { x: event.clientX - corner.x, y: event.clientY - corner.y }, room);
  return nearest(view.track, point.x - off.x, point.y - off.y)?.station_m ?? null;
}

interface HandleProps {
  place: Place;
  x: number;
  y: number;
  entry: boolean;
  off: Point;
  toStation: (event: PointerEvent, off: Point) => number | null;
  all: Place[];
  told: boolean;
  size: number;
}

function Handle({ place, x, y, entry, off, toStation, all, told, size }: HandleProps) {
  const down = useRef<{ x: number; y: number; off: Point; moved: boolean } | null>(null);
  const moves = place.stays === "";
  const station = stationNow(place);
  const held = dragged.value?.id === place.id;
  function letGo(): void {
    if (down.current?.moved === true) giveUp();
    down.current = null;
  }
  const pointer = {
    onPointerDown: (event: PointerEvent) => {
      if (event.button !== 0) return;
      if (event.currentTarget instanceof Element) event.currentTarget.setPointerCapture(event.pointerId);
      down.current = { x: event.clientX, y: event.clientY, off, moved: false };
      chosen.value = place.id;
    },
    onPointerMove: (event: PointerEvent) => {
      const began = down.current;
      if (began === null || !moves) return;
      if (pinching.value) return letGo();
      if (!began.moved && Math.hypot(event.clientX - began.x, event.clientY - began.y) < STILL) return;
      began.moved = true;
      const next = toStation(event, began.off);
      if (next !== null) hold(place, next, event.altKey, event);
    },
    onPointerUp: () => {
      if (pinching.value) return letGo();
      if (down.current?.moved === true) void putDown();
      else if (down.current !== null) whyOf.value = place.id;
      down.current = null;
    },
    onPointerCancel: letGo,
  };
  const limits = moves
    ? {
        role: "slider" as const,
        "aria-valuemin": 0,
        "aria-valuemax": lineOf(place.line)?.length_m ?? 0,
        "aria-valuenow": station,
        "aria-valuetext": stationText(station),
      }
    : {};
  const shown = held ? " held" : chosen.value === place.id ? " chosen" : "";
  return (
    <div class={`spot ${sortOf(place)}${shown}`} style={{ transform: `translate(${x}px, ${y}px)` }}>
      <button
        type="button"
        class="handle"
        style={{ width: `${size}px`, height: `${size}px`, margin: `${-size / 2}px` }}
        tabIndex={entry ? 0 : -1}
        data-place={place.id}
        aria-label={`${place.name}, ${place.kind}, station ${stationText(station)}${moves ? "" : `. ${place.stays}`}`}
        onFocus={() => (chosen.value = place.id)}
        onBlur={() => held && down.current === null && void putDown()}
        onKeyDown={(event) => handleKeys(event, place, all)}
        {...limits}
        {...pointer}
      >
        <span class="handle-mark" />
      </button>
      {told && <HandleUse place={place} />}
      <span class="handle-words" aria-hidden="true">
        {held ? stationText(station) : `${listedName(place)} · ${listedStation(place, station)}`}
      </span>
    </div>
  );
}

/** How full an anchor or a joint is, beside it. */
function HandleUse({ place }: { place: Place }) {
  const use = uses.value.get(place.id) ?? null;
  if (use === null) return null;
  return (
    <span class="handle-use" aria-hidden="true">
      <UseChip use={use} />
    </span>
  );
}

const STILL = 4; // pixels that a press may tremble
const LARGE = 10; // steps with the shift key

function handleKeys(event: KeyboardEvent, place: Place, all: Place[]): void {
  if (event.ctrlKey || event.metaKey) return;
  const way = WAYS[event.key];
  const turn = event.key === "PageDown" ? 1 : event.key === "PageUp" ? -1 : 0;
  if (way !== undefined) stepAlong(place, way * (event.shiftKey ? LARGE : 1), event);
  else if (turn !== 0) focusOn(all[all.indexOf(place) + turn]);
  else if (event.key === "Enter" || event.key === " ") enter(place);
  else if (event.key === "Delete") void remove(place);
  else if (event.key === "Escape" && dragged.value !== null) giveUp();
  else if (event.key === "Escape") whyOf.value = "";
  else return;
  event.preventDefault();
  event.stopPropagation();
}

const WAYS: Record<string, number> = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 };

function enter(place: Place): void {
  if (dragged.value?.id === place.id) void putDown().then((now) => now !== null && keepKeyboard(now));
  else whyOf.value = place.id;
}

/** A place that is called otherwise now has another handle: the keyboard goes with it. */
function keepKeyboard(now: Place): void {
  requestAnimationFrame(() => document.activeElement === document.body && focusOn(now));
}

/** Bring the keyboard to a place's handle. */
export function focusOn(place: Place | undefined): void {
  if (place === undefined) return;
  for (const handle of document.querySelectorAll<HTMLElement>("[data-place]")) {
    if (handle.dataset["place"] === place.id) handle.focus({ preventScroll: true });
  }
}
