// Picking a place up, moving it along its line, and putting it down.     (line/moving.ts)
import { signal } from "@preact/signals";
import type { LineOutline, Moved, Place } from "../interface";
import { dragged, handMoved } from "../looks";
import { change, chosen, opened, places } from "../store";
import { snap, stepped } from "./along";

/** To what a moved place snaps [m]. */
export const snapStep = signal(0.1);

/** Two fingers are on the picture: they zoom it, and what one of them touches is not moved. */
export const pinching = signal(false);

export function lineOf(name: string): LineOutline | null {
  return opened.value?.lines.find((line) => line.name === name) ?? null;
}

/** Where a place is now: in the hand, or on the line. */
export function stationNow(place: Place): number {
  return dragged.value?.id === place.id ? dragged.value.station_m : place.station_m;
}

/** The place is held over a station. `free`: without snapping. */
export function hold(place: Place, station_m: number, free: boolean, event: Event): void {
  const line = lineOf(place.line);
  if (line === null || place.stays !== "") return;
  const next = snap(station_m, free ? 0 : snapStep.value, line.corners, line.length_m);
  if (next === stationNow(place)) return;
  handMoved(event);
  dragged.value = { id: place.id, station_m: next };
}

/** By keys: so many steps along the line. */
export function stepAlong(place: Place, steps: number, event: Event): void {
  const line = lineOf(place.line);
  if (line === null || place.stays !== "") return;
  const next = stepped(stationNow(place), snapStep.value, steps, line.length_m);
  handMoved(event);
  dragged.value = { id: place.id, station_m: next };
}

/** Put down what is in the hand: the file says so from now on. The answer is the place, whatever it is called now. */
export async function putDown(): Promise<Place | null> {
  const held = dragged.value;
  if (held === null || held === putting) return null; // it is on its way: its handle was left by the keyboard
  putting = held;
  const before = places.value.get(held.id);
  const done = await change({ do: "move", id: held.id, station_m: held.station_m });
  if (dragged.value === held) dragged.value = null;
  const now = places.value.get(held.id) ?? (done && before !== undefined ? lyingAt(before, held.station_m) : null);
  if (now !== null && done) chosen.value = now.id;
  return now;
}

let putting: Moved | null = null;
const NEAR_M = 0.002; // stations in the text are whole millimetres

/** The place of the same kind at a station: one without a name of its own is called after where it lies. */
function lyingAt(before: Place, station_m: number): Place | null {
  const those = [...places.value.values()].filter((place) => place.line === before.line && place.kind === before.kind);
  return those.find((place) => Math.abs(place.station_m - station_m) < NEAR_M) ?? null;
}

export function giveUp(): void {
  dragged.value = null;
}

/** Take a place off the line; undo brings it back, so nothing is asked. */
export async function remove(place: Place): Promise<void> {
  if (place.what === "end") return;
  dragged.value = null;
  if ((await change({ do: "remove", id: place.id })) && chosen.value === place.id) chosen.value = "";
}
