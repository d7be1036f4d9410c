// Text that was typed and is not yet the server's: kept, sent when it can be, and never over another's.     (typed.ts)

/**
 * `base`: the server's text that was typed upon. `mine`: what is typed, null where nothing is open. `sent`: what of it is
 * on its way. `theirs`: the server's text where it moved on meanwhile, so that a person must choose; else null.
 */
export interface Typed {
  base: string;
  mine: string | null;
  sent: string | null;
  theirs: string | null;
}

export const NOTHING_TYPED: Typed = { base: "", mine: null, sent: null, theirs: null };

/** Something was typed. */
export function type(typed: Typed, text: string): Typed {
  if (typed.theirs === null && typed.sent === null && text === typed.base) return { ...typed, mine: null };
  return { ...typed, mine: text };
}

/** What is typed goes to the server. */
export function send(typed: Typed): Typed {
  return { ...typed, sent: typed.mine };
}

/** The server did not take it, or was not there. */
export function unsend(typed: Typed): Typed {
  return { ...typed, sent: null };
}

/** The server's text, from whatever side it comes. */
export function arrive(typed: Typed, text: string): Typed {
  if (typed.mine === null || typed.mine === text) return { base: text, mine: null, sent: null, theirs: null };
  if (text === typed.base) return { ...typed, theirs: null };
  if (text === typed.sent) return { ...typed, base: text, sent: null, theirs: null };
  return { ...typed, theirs: text };
}

/** The person keeps the own text: it now stands on the server's. */
export function keepMine(typed: Typed): Typed {
  return typed.theirs === null ? typed : { ...typed, base: typed.theirs, theirs: null, sent: null };
}

/** The person takes the server's text. */
export function takeTheirs(typed: Typed): Typed {
  return typed.theirs === null ? typed : { base: typed.theirs, mine: null, sent: null, theirs: null };
}

/** Whether there is something to send, and nobody must be asked first. */
export function ready(typed: Typed): boolean {
  return typed.mine !== null && typed.sent === null && typed.theirs === null;
}

const KEY = "takeup.typed";

/** Keep what is typed over a reload of the page. */
export function store(typed: Typed, file: string, room: Storage): void {
  if (typed.mine === null) room.removeItem(KEY);
  else room.setItem(KEY, JSON.stringify({ file, base: typed.base, mine: typed.mine }));
}

/** What was kept over a reload, if it belongs to this file. */
export function restore(file: string, room: Storage): Typed {
  const kept = room.getItem(KEY);
  if (kept === null) return NOTHING_TYPED;
  const read: { file?: unknown; base?: unknown; mine?: unknown } = JSON.parse(kept);
  if (read.file !== file || typeof read.base !== "string" || typeof read.mine !== "string") return NOTHING_TYPED;
  return { base: read.base, mine: read.mine, sent: null, theirs: null };
}
