// What happens on the way: marks on the track, and the same as a list.     (track/events.tsx)
import type { WalkEvent } from "../interface";
import { choose, walk } from "../store";
import { goTo, step } from "../looks";

const NEAR = 12; // pixels; events nearer to each other share a mark

export interface Cluster {
  step: number;
  at: number;
  events: WalkEvent[];
}

/** Events in order, those that are drawn too near to each other together. */
export function clusters(events: readonly WalkEvent[], shares: readonly number[], width: number): Cluster[] {
  const found: Cluster[] = [];
  for (const event of [...events].sort((a, b) => a.step - b.step)) {
    const at = shares[event.step] ?? 0;
    const before = found.at(-1);
    if (before !== undefined && (at - before.at) * width < NEAR) before.events.push(event);
    else found.push({ step: event.step, at, events: [event] });
  }
  return found;
}

function show(event: WalkEvent): void {
  goTo(event.step);
  choose(event.id);
}

export function Marks({ width, at }: { width: number; at: readonly number[] }) {
  const now = walk.value;
  if (now === null || width === 0) return null;
  return (
    <>
      {clusters(now.events, at, width).map((cluster) => (
        <button
          key={cluster.step}
          type="button"
          class="mark"
          style={{ left: `${cluster.at * 100}%` }}
          aria-label={cluster.events.map((event) => event.words).join("; ")}
          onClick={() => cluster.events[0] !== undefined && show(cluster.events[0])}
        >
          <span class={cluster.at > 0.5 ? "mark-words to-left" : "mark-words"} aria-hidden="true">
            {cluster.events.slice(0, MOST).map((event) => (
              <span key={event.id + event.words}>{event.words}</span>
            ))}
            {cluster.events.length > MOST && <span>and {cluster.events.length - MOST} more</span>}
          </span>
        </button>
      ))}
    </>
  );
}

const MOST = 6;

export function EventList() {
  const now = walk.value;
  if (now === null || now.events.length === 0) return null;
  const state = (event: WalkEvent) => now.steps[event.step]?.state ?? "";
  return (
    <details class="events" data-popover>
      <summary class="button small">
        {now.events.length} event{now.events.length === 1 ? "" : "s"} on the way
      </summary>
      <ol class="sheet">
        {now.events.map((event, i) => (
          <li key={i}>
            <button type="button" aria-current={event.step === step.value ? "step" : undefined} onClick={() => show(event)}>
              <span>{event.words}</span>
              <span class="quiet small">on the way to {state(event)}</span>
            </button>
          </li>
        ))}
      </ol>
    </details>
  );
}
