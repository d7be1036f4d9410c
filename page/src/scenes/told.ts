// The scenes as they were fetched, and which one is open.     (scenes/told.ts)
import { signal } from "@preact/signals";
import { ask } from "../client";
import type { SceneRow, SceneTold } from "../interface";
import { tried } from "../store";

export const rows = signal<SceneRow[]>([]);
export const open = signal("");
/** Every scene that was opened, by its name: a scene never changes. */
export const told = signal<ReadonlyMap<string, SceneTold>>(new Map());

export async function fetchRows(): Promise<void> {
  if (rows.value.length > 0) return;
  const found = await tried(() => ask<{ scenes: SceneRow[] }>("/api/scenes"));
  rows.value = found?.scenes ?? [];
  const first = rows.value[0];
  if (first !== undefined && open.value === "") await enter(first.name);
}

export async function enter(name: string): Promise<void> {
  open.value = name;
  if (told.value.has(name)) return;
  const found = await tried(() => ask<SceneTold>(`/api/scenes/${encodeURIComponent(name)}`));
  if (found !== null) told.value = new Map(told.value).set(name, found);
}
