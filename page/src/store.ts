// What the page knows and shows, and what it asks of the server.     (store.ts)
import { batch, computed, effect, signal } from "@preact/signals";
import { ask, NotDone } from "./client";
import type { Change, Document, Look, Scenario, StudyNews, TakeAsked, Views, Walk } from "./interface";
import { connect, link, onNews, say, tried } from "./link";
import * as typing from "./typed";

export { dismiss, link, notices, onNews, say, tried } from "./link";

export type Room = "line" | "proposals" | "papers" | "scenes";
export type ViewTab = "plan" | "section" | "space";

export const opened = signal<Document | null>(null);
export const study = signal<StudyNews | null>(null);
export const walk = signal<Walk | null>(null);
export const views = signal<Views | null>(null);
export const look = signal<Look | null>(null);
export const room = signal<Room>("line");
export const viewTab = signal<ViewTab>("plan");
export const lineName = signal("");
/** The place that is chosen, by its id; "" where none is. */
export const chosen = signal("");
/** The place whose reasons are open; "" where none is. */
export const whyOf = signal("");
export const typed = signal<typing.Typed>(typing.NOTHING_TYPED);
/** Whether something runs that the person should see as running: a change or a save. */
export const working = signal(false);
/** The file on disk is another one, and it was asked to write over it. */
export const overwriteAsked = signal("");

/** How often the server was found: what was shown before may be of another one. */
export const found = signal(0);
/** The revision that views, walk and looks are of; 0 where nothing was readable yet. */
export const outlineRevision = computed(() => opened.value?.outline_revision ?? 0);
/** There is nothing to show yet: the text has faults, and was not read without them since the desk opened it. */
export const blank = computed(() => outlineRevision.value === 0 && (opened.value?.faults.length ?? 0) > 0);
/** Every place by its id. */
export const places = computed(
  () => new Map((opened.value?.lines ?? []).flatMap((line) => line.places.map((place) => [place.id, place] as const))),
);

/** The use of each hold and joint in the state that is looked at, where it has one. */
export const uses = computed(() => {
  const seen = [...(look.value?.holds ?? []), ...(look.value?.takeups ?? [])];
  return new Map(seen.map((one) => [one.id, one.use] as const));
});

/** Choose a place, and show its line. */
export function choose(id: string): void {
  const place = places.value.get(id);
  if (place === undefined) return;
  batch(() => {
    chosen.value = id;
    lineName.value = place.line;
  });
}

/** Take the document as it stands now. `anew`: it may be of another server, so that its number may be lower. */
function arrived(next: Document, anew = false): void {
  const now = opened.value;
  if (!anew && now !== null && next.revision < now.revision) return;
  batch(() => {
    if (now === null) typed.value = typing.restore(next.file, sessionStorage);
    typed.value = typing.arrive(anew ? typing.unsend(typed.value) : typed.value, next.text);
    opened.value = next;
    if (!next.lines.some((line) => line.name === lineName.value)) lineName.value = next.lines[0]?.name ?? "";
    if (chosen.value !== "" && !places.value.has(chosen.value)) chosen.value = "";
    if (whyOf.value !== "" && !places.value.has(whyOf.value)) whyOf.value = "";
  });
}

export async function refreshDocument(): Promise<void> {
  const next = await tried(() => ask<Document>("/api/document"));
  if (next !== null) arrived(next);
}

export async function refreshStudy(): Promise<void> {
  study.value = (await tried(() => ask<StudyNews>("/api/study"))) ?? study.value;
}

export async function refreshViews(): Promise<void> {
  views.value = (await tried(() => ask<Views>("/api/views"))) ?? views.value;
}

export const scenario = signal<Scenario>("no friction");

export async function refreshWalk(): Promise<void> {
  const wanted = scenario.value; // read before anything is waited for, so that an effect knows of it
  const next = await tried(() => ask<Walk>(`/api/walk?scenario=${encodeURIComponent(wanted)}`));
  if (next !== null && scenario.value === wanted) walk.value = next;
}

let queue: Promise<unknown> = Promise.resolve();

/** One after another: each change is made on the revision that the one before it left. */
function inTurn<T>(job: () => Promise<T>): Promise<T> {
  const turn = queue.then(job, job);
  queue = turn.catch(() => undefined);
  return turn;
}

/** Ask for a change; what was typed goes first. Whether it was done. */
export function change(asked: Change): Promise<boolean> {
  return inTurn(async () => {
    await sendTyped();
    if (typed.value.mine !== null && link.value === "here") {
      say("First choose between the two texts; then go on.");
      return false;
    }
    return worked(() => posted({ ...asked }));
  });
}

async function worked(job: () => Promise<boolean>): Promise<boolean> {
  working.value = true;
  try {
    return (await tried(job)) ?? false;
  } finally {
    working.value = false;
  }
}

async function posted(asked: Change): Promise<boolean> {
  const revision = opened.value?.revision ?? 0;
  try {
    arrived(await ask<Document>("/api/change", { revision, change: asked }));
    return true;
  } catch (reason) {
    if (reason instanceof NotDone && reason.document !== null) arrived(reason.document);
    throw reason;
  }
}

const WAIT_MS = 300;
let waiting: ReturnType<typeof setTimeout> | null = null;

/** Something was typed in the file: it is kept at once and sent shortly. */
export function typeText(text: string): void {
  typed.value = typing.type(typed.value, text);
  if (waiting !== null) clearTimeout(waiting);
  waiting = setTimeout(() => void inTurn(sendTyped), WAIT_MS);
}

async function sendTyped(): Promise<void> {
  if (waiting !== null) clearTimeout(waiting);
  waiting = null;
  if (!typing.ready(typed.value)) return;
  typed.value = typing.send(typed.value);
  const text = typed.value.sent ?? "";
  const revision = opened.value?.revision ?? 0;
  try {
    arrived(await ask<Document>("/api/change", { revision, change: { do: "text", text } }));
  } catch (reason) {
    typed.value = typing.unsend(typed.value);
    await tried(() => notTaken(reason));
  }
}

/** A text that was not taken: on another revision it is compared with what stands there now. */
async function notTaken(reason: unknown): Promise<void> {
  if (!(reason instanceof NotDone && reason.document !== null)) throw reason;
  arrived(reason.document);
  if (typing.ready(typed.value) && reason.status === 409) setTimeout(() => void inTurn(sendTyped), WAIT_MS);
}

/** The person chose between two texts. */
export function chooseText(whose: "mine" | "theirs"): void {
  typed.value = whose === "mine" ? typing.keepMine(typed.value) : typing.takeTheirs(typed.value);
  if (whose === "mine") void inTurn(sendTyped);
}

/** Save the file. `overwrite`: also where the file on disk is another one than was read. */
export function save(overwrite: boolean): Promise<boolean> {
  return inTurn(async () => {
    await sendTyped();
    return worked(() => written(overwrite));
  });
}

/** Put a proposal into the text that stood at a revision; "moved": another one stands there now. */
export function takeOver(number: number, key: string, at: number): Promise<"done" | "moved" | "not"> {
  return inTurn(async () => {
    await sendTyped();
    if (typed.value.mine !== null && link.value === "here") {
      say("First choose between the two texts; then go on.");
      return "not";
    }
    if ((opened.value?.revision ?? 0) !== at) return "moved";
    working.value = true;
    const how = await tried(() => takenOver({ revision: at, number, key }));
    working.value = false;
    return how ?? "not";
  });
}

async function takenOver(asked: TakeAsked): Promise<"done" | "moved"> {
  try {
    arrived(await ask<Document>("/api/proposals/take", asked));
    return "done";
  } catch (reason) {
    if (!(reason instanceof NotDone) || reason.document === null) throw reason;
    arrived(reason.document);
    if (reason.document.revision === asked.revision) throw reason;
    return "moved";
  }
}

async function written(overwrite: boolean): Promise<boolean> {
  try {
    arrived(await ask<Document>("/api/save", { overwrite }));
  } catch (reason) {
    if (!(reason instanceof NotDone && reason.status === 409 && !overwrite)) throw reason;
    if (reason.document !== null) arrived(reason.document);
    overwriteAsked.value = reason.refused;
    return false;
  }
  overwriteAsked.value = "";
  say("Saved.", true);
  return true;
}

/** Begin: listen to the server, and ask anew for whatever a news or a new revision makes old. */
export function start(): void {
  onNews("document", () => void refreshDocument());
  onNews("outside", () => void refreshDocument());
  onNews("study", () => void refreshStudy());
  effect(() => {
    if (outlineRevision.value > 0 && found.value > 0) void refreshViews();
  });
  effect(() => {
    if (outlineRevision.value > 0 && found.value > 0) void refreshWalk();
  });
  effect(() => {
    const project = opened.value?.project ?? "";
    document.title = project === "" ? "Takeup desk" : `${project}, Takeup desk`;
  });
  effect(() => {
    const file = opened.value?.file;
    if (file !== undefined) typing.store(typed.value, file, sessionStorage);
  });
  addEventListener("beforeunload", (event) => {
    if (typed.value.mine !== null && link.value !== "here") event.preventDefault(); // the browser asks
  });
  connect((next) => {
    batch(() => {
      arrived(next, true);
      found.value += 1;
    });
    void inTurn(sendTyped);
  });
}
