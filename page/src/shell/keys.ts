// Keys that hold everywhere on the desk.     (shell/keys.ts)
import { adding } from "../line/adding";
import { change, opened, room, save, whyOf } from "../store";
import { playOrPause } from "../track/playing";

/** Whether the keys belong to something that is typed in. */
function typesIn(target: EventTarget | null): boolean {
  return target instanceof Element && target.closest(".cm-editor, input:not([type=range]), textarea, select") !== null;
}

/** Whether the space key has a meaning of its own there. */
function pressed(target: EventTarget | null): boolean {
  return target instanceof Element && target.closest("button, summary, a, [role=slider], dialog") !== null;
}

export function startKeys(): void {
  addEventListener("pointerdown", (event) => closeOpen(event.target));
  addEventListener("keydown", (event) => {
    if (event.defaultPrevented || event.altKey) return;
    if ((event.ctrlKey || event.metaKey ? withControl : alone)(event)) event.preventDefault();
  });
}

/** Close what hangs open, but for what holds the target; whether there was any. */
function closeOpen(target: EventTarget | null): boolean {
  const open = [...document.querySelectorAll<HTMLDetailsElement>("details[data-popover][open]")];
  const others = open.filter((one) => !(target instanceof Node && one.contains(target)));
  for (const one of others) one.open = false;
  return others.length > 0;
}

/** By the escape key: the keyboard goes back to what opened it. */
function escapeOpen(): boolean {
  const last = document.querySelector<HTMLDetailsElement>("details[data-popover][open]");
  if (last?.contains(document.activeElement) === true) last.querySelector("summary")?.focus();
  return closeOpen(null);
}

/** Whether the key was ours. */
function withControl(event: KeyboardEvent): boolean {
  const key = event.key.toLowerCase();
  if (key === "s" && !event.shiftKey) {
    void save(false);
    return true;
  }
  if (typesIn(event.target) || document.querySelector("dialog[open]") !== null) return false;
  const way = key === "z" && !event.shiftKey ? "undo" : key === "y" || key === "z" ? "redo" : null;
  if (way === null) return false;
  if ((opened.value?.[way] ?? "") !== "") void change({ do: way });
  return true;
}

function alone(event: KeyboardEvent): boolean {
  if (event.key === "Escape" && escapeOpen()) return true;
  if (room.value !== "line" || typesIn(event.target)) return false;
  if (event.key === " " && !pressed(event.target)) playOrPause();
  else if (event.key === "Escape" && adding.value !== null) adding.value = null;
  else if (event.key === "Escape" && whyOf.value !== "") whyOf.value = "";
  else return false;
  return true;
}
