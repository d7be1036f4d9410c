// What is looked at: a step of the walk or a state by hand, and the look that the server gives of it.     (looks.ts)
import { batch, computed, effect, signal } from "@preact/signals";
import { ask } from "./client";
import type { ByHand, Look, LookAsked, Moved, Walk } from "./interface";
import { Latest } from "./latest";
import { trouble } from "./link";
import { found, look, outlineRevision, scenario, walk } from "./store";

/** The step of the walk; null before a walk came. */
export const step = signal<number | null>(null);
/** The state by hand; null while the walk is looked at. */
export const byHand = signal<ByHand | null>(null);
/** How many times movements are drawn; 0 lets the server choose. */
export const exaggeration = signal(0);
/** What is picked up and not yet put down. */
export const dragged = signal<Moved | null>(null);
/** When the hand moved last, on the page's clock [ms]; 0 where nobody waits for the picture. */
let inputAt = 0;

/** The number of times that is drawn, also where the server chose it. */
export const drawnTimes = computed(() => exaggeration.value || look.value?.exaggeration || 1);

type Wish = { asked: Omit<LookAsked, "number">; inputAt: number };

const latest = new Latest<Wish, Look>(
  (wish, number) => ask<Look>("/api/look", { ...wish.asked, number }),
  (answer, wish) => {
    look.value = answer; // what draws is an effect of this, and done when it returns
    measured(wish.inputAt);
  },
  trouble,
);

const MANY = 5000;

/** Tell the browser's own clock how long it took from hand to picture. */
function measured(start: number): void {
  if (start === 0) return;
  if (performance.getEntriesByName("look").length > MANY) performance.clearMeasures("look");
  performance.measure("look", { start, end: performance.now() });
  requestAnimationFrame((frame) => performance.measure("look in frame", { start, end: Math.max(frame, start) }));
}

/** Say that a hand moved, before what it moved is set: the time to the picture is measured from here. */
export function handMoved(event: Event): void {
  inputAt = event.timeStamp > 0 ? event.timeStamp : performance.now();
}

/** Go to a step of the walk. */
export function goTo(next: number): void {
  const last = (walk.value?.steps.length ?? 1) - 1;
  batch(() => {
    byHand.value = null;
    step.value = Math.min(Math.max(next, 0), last);
  });
}

/** The step to look at in a new walk: the one before if it is of the same state, that state, or where it is hottest. */
export function stepIn(next: Walk, before: number | null, state: string): number {
  if (before !== null && next.steps[before]?.state === state) return before;
  const states = next.steps.filter((one) => one.arrived);
  const same = states.find((one) => one.state === state);
  const hottest = [...states].sort((one, other) => other.temperature_c - one.temperature_c)[0];
  return (same ?? hottest)?.step ?? 0;
}

/** Begin to look: whatever the wish is made of, a change of it asks for a look. */
export function startLooking(): void {
  let state = "";
  effect(() => {
    const next = walk.value;
    if (next === null || next.steps.length === 0) return;
    step.value = stepIn(next, step.peek(), state);
    state = next.steps[step.peek() ?? 0]?.state ?? "";
  });
  effect(() => {
    state = walk.peek()?.steps[step.value ?? -1]?.state ?? state;
  });
  effect(() => {
    const hand = byHand.value;
    if (outlineRevision.value === 0 || found.value === 0 || (hand === null && step.value === null)) return;
    const asked = {
      revision: outlineRevision.value,
      scene: "",
      step: hand === null ? step.value : null,
      by_hand: hand,
      scenario: scenario.value,
      moved: dragged.value,
      exaggeration: exaggeration.value,
    };
    latest.want({ asked, inputAt });
    inputAt = 0;
  });
}
