// How wide the file's pane is: by pointer or keyboard, kept for the next time.     (line/divider.ts)
import { signal } from "@preact/signals";

const KEY = "takeup.file-width";
export const LEAST = 16; // per cent of the room
export const MOST = 55;
const USUAL = 26;
const STEP = 2;
const BIG = 10;

/** The width from what was kept; the usual one where nothing sensible was. */
export function widthFrom(kept: string | null): number {
  const width = Number(kept ?? "");
  return kept !== null && width >= LEAST && width <= MOST ? width : USUAL;
}

/** The width that is nearest to the one wanted, of those there may be. */
export function allowed(wanted: number): number {
  return Math.round(Math.min(Math.max(wanted, LEAST), MOST));
}

/** The width after a key; null where the key means nothing here. */
export function widthByKey(key: string, now: number): number | null {
  if (key === "ArrowRight" || key === "ArrowUp") return allowed(now + STEP);
  if (key === "ArrowLeft" || key === "ArrowDown") return allowed(now - STEP);
  if (key === "PageUp") return allowed(now + BIG);
  if (key === "PageDown") return allowed(now - BIG);
  if (key === "Home") return LEAST;
  if (key === "End") return MOST;
  return key === "Enter" ? USUAL : null;
}

/** Of the room [per cent]. */
export const fileWidth = signal(widthFrom(localStorage.getItem(KEY)));

export function setFileWidth(wanted: number): void {
  fileWidth.value = allowed(wanted);
  localStorage.setItem(KEY, String(fileWidth.value));
}
