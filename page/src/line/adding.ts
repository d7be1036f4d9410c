// Putting something new on the line, from the short list.     (line/adding.ts)
import { signal } from "@preact/signals";
import type { Palette } from "../interface";
import { change, chosen, lineName, places } from "../store";
import { snap } from "./along";
import { lineOf, snapStep } from "./moving";

/** What is about to be put on the line, and on what it slides ("" until that is said). */
export const adding = signal<{ item: Palette; slidesOn: string } | null>(null);

/** Whether everything is said that must be said before it can be put on the line. */
export function complete(now: { item: Palette; slidesOn: string } | null): boolean {
  return now !== null && (now.item.slides_on.length === 0 || now.slidesOn !== "");
}

/** Put it at a station of the line that is seen. */
export async function addAt(station_m: number, free: boolean): Promise<void> {
  const now = adding.value;
  const line = lineOf(lineName.value);
  if (now === null || line === null || !complete(now)) return;
  const before = new Set(places.value.keys());
  const at = snap(station_m, free ? 0 : snapStep.value, line.corners, line.length_m);
  const slides = now.slidesOn === "" ? {} : { slides_on: now.slidesOn };
  if (!(await change({ do: "add", key: now.item.key, line: line.name, station_m: at, ...slides }))) return;
  adding.value = null;
  chosen.value = [...places.value.keys()].find((id) => !before.has(id)) ?? chosen.value;
}
