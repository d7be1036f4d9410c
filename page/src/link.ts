// The link to the server: lost, found again, and the news that comes over it.     (link.ts)
import { signal } from "@preact/signals";
import { ask, NotDone, NotSignedIn, Offline } from "./client";
import type { Document, News } from "./interface";

/** "away": no answer. "stranger": it was started anew and does not know this browser. */
export type Link = "here" | "away" | "stranger";

export const link = signal<Link>("here");

/** What is told to the person, newest last; read aloud as well. */
export interface Notice {
  number: number;
  words: string;
}

export const notices = signal<Notice[]>([]);
let told = 0;

const PASSING_MS = 7000;

/** Tell something. `passing`: it needs no answer and goes by itself. */
export function say(words: string, passing = false): void {
  const others = notices.value.filter((notice) => notice.words !== words);
  const number = ++told;
  notices.value = [...others.slice(-3), { number, words }];
  if (passing) setTimeout(() => dismiss(number), PASSING_MS);
}

export function dismiss(number: number): void {
  notices.value = notices.value.filter((notice) => notice.number !== number);
}

/** Do something that asks the server; null where it was not done, and the person knows why. */
export async function tried<T>(job: () => Promise<T>): Promise<T | null> {
  try {
    return await job();
  } catch (reason) {
    trouble(reason);
    return null;
  }
}

export function trouble(reason: unknown): void {
  if (reason instanceof Offline) lose("away");
  else if (reason instanceof NotSignedIn) lose("stranger");
  else if (reason instanceof NotDone) say(reason.refused);
  else throw reason;
}

type What = News["what"];
const listeners = new Map<What, Set<() => void>>();

/** Be told when something changed on the server; also after the link was lost. The answer ends it. */
export function onNews(what: What, listener: () => void): () => void {
  const those = listeners.get(what) ?? new Set();
  listeners.set(what, those.add(listener));
  return () => those.delete(listener);
}

function tell(what: What): void {
  for (const listener of listeners.get(what) ?? []) listener();
}

const EVERY_MS = 1000;
let stream: EventSource | null = null;
let retrying = false;
let found: (document: Document) => void = () => undefined;

/** Begin to listen; `onFound` gets the document each time the server is found. */
export function connect(onFound: (document: Document) => void): void {
  found = onFound;
  void look();
}

function lose(how: Link): void {
  link.value = how;
  stream?.close();
  stream = null;
  if (!retrying) {
    retrying = true;
    setTimeout(() => void look(), EVERY_MS);
  }
}

async function look(): Promise<void> {
  retrying = false;
  const document = await tried(() => ask<Document>("/api/document"));
  if (document === null) {
    if (link.value === "here") lose("away"); // it answered, but has no document to give
    return;
  }
  listen();
  found(document);
  const before = link.value;
  link.value = "here";
  if (before !== "here") say("The desk's server answers again.", true);
  for (const what of listeners.keys()) if (what !== "document" && what !== "outside") tell(what);
}

function listen(): void {
  stream?.close();
  stream = new EventSource("/api/news");
  stream.onmessage = (message: MessageEvent<string>) => {
    const news: News = JSON.parse(message.data);
    tell(news.what);
  };
  stream.onerror = () => {
    stream?.close();
    stream = null;
    if (!retrying && link.value === "here") void look(); // shown as lost only if this fails as well
  };
}
