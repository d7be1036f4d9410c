// What a search has come to, and asking for one.     (proposals/found.ts)
import { signal } from "@preact/signals";
import { ask } from "../client";
import type { ArrangeAsked, ProposalRow, Proposals } from "../interface";
import { onNews, opened, room, say, takeOver, tried } from "../store";

export const found = signal<Proposals | null>(null);
export const asked = signal<ArrangeAsked>({ best: 3, measure: "cost" });
export const taking = signal(0);

export const MOST = 10; // proposals that a page can show beside each other; the command gives more

/** Follow the search while the room is open. The answer ends it. */
export function follow(): () => void {
  void fetchFound();
  return onNews("proposals", () => void fetchFound());
}

async function fetchFound(): Promise<void> {
  found.value = (await tried(() => ask<Proposals>("/api/proposals"))) ?? found.value;
}

export async function start(): Promise<void> {
  found.value = (await tried(() => ask<Proposals>("/api/proposals", asked.value))) ?? found.value;
}

export async function stop(): Promise<void> {
  found.value = (await tried(() => ask<Proposals>("/api/proposals/stop", {}))) ?? found.value;
}

/** The proposal that was pressed when the text had changed: whether it is meant all the same is asked. */
export const doubted = signal<ProposalRow | null>(null);

/** Put a proposal into the text, as one change that undo takes back, and go and look at it. */
export async function take(row: ProposalRow): Promise<void> {
  doubted.value = null;
  taking.value = row.number;
  const how = await takeOver(row.number, row.key, opened.value?.revision ?? 0);
  taking.value = 0;
  if (how === "moved") doubted.value = row;
  if (how !== "done") return;
  say(`Proposal ${row.number} is in the file now; undo takes it back.`, true);
  room.value = "line";
}

/** Whether what was found is of the text as it stands. */
export function isOfNow(proposals: Proposals): boolean {
  return proposals.revision === (opened.value?.revision ?? proposals.revision);
}
