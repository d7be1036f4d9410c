// The states as a track: play the walk, scrub it, or push by hand.     (track/track.tsx)
import { computed, useSignal } from "@preact/signals";
import { useLayoutEffect, useRef } from "preact/hooks";
import { byHand, goTo, handMoved, step } from "../looks";
import { look, scenario, walk } from "../store";
import { Icon } from "../shell/icon";
import { EventList, Marks } from "./events";
import { Hand } from "./hand";
import type { Placed } from "./layout";
import { curve, rooms, shares, stepAt } from "./layout";
import { following, playing, playOrPause, stateBefore } from "./playing";
import { Times } from "./times";

export function Track() {
  const trouble = walk.value?.trouble ?? "";
  const nowhere = trouble !== "" && walk.value?.steps.length === 0;
  return (
    <section class="track sheet" aria-label="States of the walk">
      <div class="track-head">
        <Transport />
        {nowhere ? <p class="now now-words">There is nothing to walk through</p> : <Now />}
        <EventList />
        <ScenarioSwitch />
      </div>
      {trouble !== "" && <p>{trouble}</p>}
      {trouble === "" && <Rail />}
      {!nowhere && (
        <div class="track-foot">
          <Hand />
          <Times />
        </div>
      )}
    </section>
  );
}

function Transport() {
  const steps = walk.value?.steps ?? [];
  const now = step.value ?? 0;
  const before = stateBefore(steps, now);
  const after = following(steps, now, true);
  return (
    <div class="transport" role="group" aria-label="Play">
      <Icon name="first" title="To the state before" disabled={before === null} press={() => before !== null && goTo(before)} />
      <Icon
        name={playing.value ? "pause" : "play"}
        title={playing.value ? "Pause (space)" : "Play the walk (space)"}
        disabled={steps.length < 2}
        press={playOrPause}
      />
      <Icon name="last" title="To the next state" disabled={after === null} press={() => after !== null && goTo(after)} />
    </div>
  );
}

/** The state that is seen, in words and numbers. */
function Now() {
  const seen = look.value;
  if (seen === null) return <p class="now quiet">The first look is on its way …</p>;
  if (seen.trouble !== "") return <p class="now now-words">{seen.trouble}</p>;
  return (
    <div class="now">
      <p class="now-words">{seen.words}</p>
      <p class="number">
        <Stroke dashed /> {seen.pressure_bar.toFixed(1)} bar(g)
      </p>
      <p class="number">
        <Stroke /> {seen.temperature_c.toFixed(0)} °C
      </p>
    </div>
  );
}

/** The stroke that the quantity has in the curves below. */
function Stroke({ dashed = false }: { dashed?: boolean }) {
  return (
    <svg class="curves-key" viewBox="0 0 22 6" aria-hidden="true">
      <path d="M0 3h22" stroke-dasharray={dashed ? "4 3" : "none"} />
    </svg>
  );
}

function ScenarioSwitch() {
  return (
    <div class="switch" role="group" aria-label="Friction of the supports">
      {(["no friction", "high friction"] as const).map((one) => (
        <button
          key={one}
          type="button"
          class="button small"
          aria-pressed={scenario.value === one}
          onClick={() => (scenario.value = one)}
        >
          {one}
        </button>
      ))}
    </div>
  );
}

const HEIGHT = 34;
const FINE = 1000; // positions of the slider from state to state
const LINE = 15; // height of a line of a name [pixels]
const SLIM = 86; // a room slimmer than this [pixels] takes a fourth line

/** The steps with where they lie. */
const laid = computed(() => {
  const steps = walk.value?.steps ?? [];
  return { steps, at: shares(steps), states: steps.filter((one) => one.arrived) };
});

function Rail() {
  const box = useRef<HTMLDivElement>(null);
  const width = useSignal(0);
  useLayoutEffect(() => {
    const element = box.current;
    if (element === null) return undefined;
    const observer = new ResizeObserver(() => (width.value = element.clientWidth));
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  const { states, at } = laid.value;
  const names = width.value === 0 ? [] : rooms(states.length, width.value);
  const row = LINE * ((names[0]?.width ?? SLIM) < SLIM ? 4 : 3) + 1;
  const rows = 1 + Math.max(0, ...names.map((name) => name.row));
  return (
    <div class={byHand.value === null ? "rail" : "rail away"}>
      <div class="rail-box" ref={box} style={{ height: `${58 + rows * row}px` }}>
        <Curves width={width.value} />
        <Marks width={width.value} at={at} />
        {states.map((one) => (
          <span key={one.step} class="tick" aria-hidden="true" style={{ left: `${100 * (at[one.step] ?? 0)}%` }} />
        ))}
        <Scrub />
        <div class="names">
          {names.map((name) => (
            <Name key={name.index} name={name} row={row} full={states[name.index]?.state ?? ""} step={states[name.index]?.step ?? 0} />
          ))}
        </div>
      </div>
    </div>
  );
}

function Scrub() {
  const { steps, at, states } = laid.value;
  const now = steps[step.value ?? 0];
  const most = Math.max(states.length - 1, 1) * FINE;
  const go = (event: Event, to: number) => {
    playing.value = false;
    handMoved(event);
    goTo(to);
  };
  return (
    <input
      class="scrub"
      type="range"
      aria-label="Step of the walk"
      aria-valuetext={now === undefined ? "" : `${now.arrived ? "" : "on the way to "}${now.state}`}
      min={0}
      max={most}
      step={1}
      value={Math.round((at[step.value ?? 0] ?? 0) * most)}
      onInput={(event) => go(event, stepAt(at, event.currentTarget.valueAsNumber / most))}
      onKeyDown={(event) => {
        const to = byKey(event.key, step.value ?? 0);
        if (to === null) return;
        event.preventDefault();
        go(event, to);
      }}
    />
  );
}

/** Arrows go from step to step, with Page Up and Page Down from state to state. */
function byKey(key: string, now: number): number | null {
  const { steps } = laid.value;
  if (key === "ArrowRight" || key === "ArrowUp") return now + 1;
  if (key === "ArrowLeft" || key === "ArrowDown") return now - 1;
  if (key === "PageUp") return following(steps, now, true);
  if (key === "PageDown") return stateBefore(steps, now);
  return null;
}

function Name({ name, row, full, step: to }: { name: Placed; row: number; full: string; step: number }) {
  const state = walk.value?.steps[step.value ?? 0]?.state;
  const here = state === full && byHand.value === null;
  return (
    <button
      type="button"
      class="name"
      tabIndex={-1}
      title={full}
      aria-current={here ? "step" : undefined}
      style={{ left: `${name.left}px`, width: `${name.width}px`, top: `${name.row * row}px`, height: `${row}px` }}
      onClick={() => goTo(to)}
    >
      {full}
    </button>
  );
}

/** Pressure and temperature over the walk, each to its own height. */
function Curves({ width }: { width: number }) {
  const { steps, at } = laid.value;
  if (width === 0 || steps.length < 2) return null;
  const temperatures = steps.map((one) => one.temperature_c);
  const pressures = steps.map((one) => one.pressure_bar);
  return (
    <svg class="curves" width={width} height={HEIGHT} aria-hidden="true">
      <polyline class="temperature" points={curve(temperatures, at, width, HEIGHT)} />
      <polyline class="pressure" points={curve(pressures, at, width, HEIGHT)} />
    </svg>
  );
}
