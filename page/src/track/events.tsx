// What happens on the way: marks on the track, and the same as a list.     (track/events.tsx)
import { signal } from "@preact/signals";
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

/** Events of one kind ("" for all) by the state that they happen on the way to, in order. */
export function byState(events: readonly WalkEvent[], state: (event: WalkEvent) => string, kind: string): [string, WalkEvent[]][] {
  const found: [string, WalkEvent[]][] = [];
  for (const event of events) {
    if (kind !== "" && event.what !== kind) continue;
    const [name, last] = [state(event), found.at(-1)];
    if (last?.[0] === name) last[1].push(event);
    else found.push([name, [event]]);
  }
  return found;
}

/** The kinds of event there are, most frequent first, each with how often it happens. */
export function kindsOf(events: readonly WalkEvent[]): [string, number][] {
  const counts = new Map<string, number>();
  for (const event of events) counts.set(event.what, (counts.get(event.what) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1]);
}

const kindSeen = signal("");

export function EventList() {
  const now = walk.value;
  if (now === null || now.events.length === 0) return null;
  const kinds = kindsOf(now.events);
  const kind = kinds.some(([one]) => one === kindSeen.value) ? kindSeen.value : "";
  const state = (event: WalkEvent) => now.steps[event.step]?.state ?? "";
  return (
    <details class="events" data-popover>
      <summary class="button small">
        {now.events.length} event{now.events.length === 1 ? "" : "s"} on the way
      </summary>
      <div class="events-list sheet">
        {kinds.length > 1 && <Kinds kinds={kinds} kind={kind} all={now.events.length} />}
        {byState(now.events, state, kind).map(([name, events]) => (
          <section key={`${name} ${events[0]?.step ?? 0}`}>
            <h3>
              On the way to {name} <span class="number">{events.length}</span>
            </h3>
            <ol>
              {events.map((event, i) => (
                <li key={i}>
                  <button type="button" aria-current={event.step === step.value ? "step" : undefined} onClick={() => show(event)}>
                    {event.words}
                  </button>
                </li>
              ))}
            </ol>
          </section>
        ))}
      </div>
    </details>
  );
}

function Kinds({ kinds, kind, all }: { kinds: [string, number][]; kind: string; all: number }) {
  return (
    <label class="events-kind small">
      Show{" "}
      <select class="field" value={kind} onChange={(event) => (kindSeen.value = event.currentTarget.value)}>
        <option value="">everything ({all})</option>
        {kinds.map(([one, count]) => (
          <option key={one} value={one}>
            {one} ({count})
          </option>
        ))}
      </select>
    </label>
  );
}
