// Playing the walk: from step to step, never faster than it is drawn.     (track/playing.ts)
import { effect, signal } from "@preact/signals";
import { goTo, step } from "../looks";
import { look, walk } from "../store";

export const playing = signal(false);

const STEP_MS = 140;
const STATE_MS = 1400; // with reduced motion: from state to state
const calm = matchMedia("(prefers-reduced-motion: reduce)");

let timer: ReturnType<typeof setTimeout> | null = null;

/** Play, or stop; at the end it begins anew. */
export function playOrPause(): void {
  const last = (walk.value?.steps.length ?? 0) - 1;
  if (last < 1) return;
  if (!playing.value && (step.value ?? 0) >= last) goTo(0);
  playing.value = !playing.value;
}

/** The step that follows; with `states` the next one that is a state itself. */
export function following(steps: readonly { step: number; arrived: boolean }[], now: number, states: boolean): number | null {
  return steps.find((one) => one.step > now && (one.arrived || !states))?.step ?? null;
}

/** The state before; null where there is none. */
export function stateBefore(steps: readonly { step: number; arrived: boolean }[], now: number): number | null {
  return steps.filter((one) => one.step < now && one.arrived).at(-1)?.step ?? null;
}

function next(): void {
  timer = null;
  const to = following(walk.peek()?.steps ?? [], step.peek() ?? 0, calm.matches);
  if (to === null) playing.value = false;
  else goTo(to);
}

/** Begin to follow: each look that is drawn lets the next step come. */
export function startPlaying(): void {
  effect(() => {
    const drawn = look.value; // the next step waits for this one's picture
    if (timer !== null) clearTimeout(timer);
    timer = null;
    if (playing.value && drawn !== null) timer = setTimeout(next, calm.matches ? STATE_MS : STEP_MS);
  });
}
