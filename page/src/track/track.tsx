// The states as a track: play the walk, scrub it, or push by hand.     (track/track.tsx)
import { useSignal } from "@preact/signals";
import { useLayoutEffect, useRef } from "preact/hooks";
import { byHand, goTo, handMoved, step } from "../looks";
import { look, scenario, walk } from "../store";
import { Icon } from "../shell/icon";
import { EventList, Marks } from "./events";
import { Hand } from "./hand";
import type { Placed } from "./layout";
import { curve, layOut } from "./layout";
import { following, playing, playOrPause, stateBefore } from "./playing";
import { Times } from "./times";

export function Track() {
  const trouble = walk.value?.trouble ?? "";
  return (
    <section class="track sheet" aria-label="States of the walk">
      <div class="track-head">
        <Transport />
        <Now />
        <EventList />
        <ScenarioSwitch />
      </div>
      {trouble !== "" && <p class="pad">{trouble}</p>}
      {trouble === "" && <Rail />}
      <div class="track-foot">
        <Hand />
        <Times />
      </div>
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
  return (
    <div class="now">
      <p class="now-words">{seen.trouble || seen.words}</p>
      <p class="number">{seen.pressure_bar.toFixed(1)} bar(g)</p>
      <p class="number">{seen.temperature_c.toFixed(0)} °C</p>
    </div>
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

const ROWS = 2;
const HEIGHT = 34;

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
  const steps = walk.value?.steps ?? [];
  const last = Math.max(steps.length - 1, 1);
  const states = steps.filter((one) => one.arrived);
  const ticks = states.map((one) => ({ at: one.step / last, words: one.state }));
  const names = width.value === 0 ? [] : layOut(ticks, width.value, ROWS, wordsWidth);
  const now = steps[step.value ?? 0];
  return (
    <div class={byHand.value === null ? "rail" : "rail away"}>
      <div class="rail-box" ref={box}>
        <Curves width={width.value} />
        <Marks width={width.value} />
        {states.map((one) => (
          <span key={one.step} class="tick" aria-hidden="true" style={{ left: `${(100 * one.step) / last}%` }} />
        ))}
        <input
          class="scrub"
          type="range"
          aria-label="Step of the walk"
          aria-valuetext={now === undefined ? "" : `${now.arrived ? "" : "on the way to "}${now.state}`}
          min={0}
          max={steps.length - 1}
          step={1}
          value={step.value ?? 0}
          onInput={(event) => {
            playing.value = false;
            handMoved(event);
            goTo(event.currentTarget.valueAsNumber);
          }}
        />
        <div class="names">
          {names.map((name) => (
            <Name key={name.index} name={name} full={states[name.index]?.state ?? ""} step={states[name.index]?.step ?? 0} />
          ))}
        </div>
      </div>
    </div>
  );
}

function Name({ name, full, step: to }: { name: Placed; full: string; step: number }) {
  const state = walk.value?.steps[step.value ?? 0]?.state;
  const here = state === full && byHand.value === null;
  return (
    <button
      type="button"
      class={`name row-${name.row}`}
      tabIndex={-1}
      title={full}
      aria-label={full}
      aria-current={here ? "step" : undefined}
      style={{ left: `${name.left}px`, width: `${name.width}px` }}
      onClick={() => goTo(to)}
    >
      {name.words}
    </button>
  );
}

/** Pressure and temperature over the walk, each to its own height. */
function Curves({ width }: { width: number }) {
  const steps = walk.value?.steps ?? [];
  if (width === 0 || steps.length < 2) return null;
  return (
    <svg class="curves" width={width} height={HEIGHT} aria-hidden="true">
      <polyline class="temperature" points={curve(steps.map((one) => one.temperature_c), width, HEIGHT)} />
      <polyline class="pressure" points={curve(steps.map((one) => one.pressure_bar), width, HEIGHT)} />
    </svg>
  );
}

let pen: CanvasRenderingContext2D | null = null;

function wordsWidth(words: string): number {
  pen ??= document.createElement("canvas").getContext("2d");
  if (pen === null) return words.length * 6.4;
  pen.font = '12px "Inter", "Helvetica Neue", Arial, sans-serif';
  return Math.ceil(pen.measureText(words).width) + 4;
}
