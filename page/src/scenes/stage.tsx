// The stage: a scene's line, pushed by hand with pressure and temperature.     (scenes/stage.tsx)
import type { Signal } from "@preact/signals";
import { useSignal, useSignalEffect } from "@preact/signals";
import { useEffect, useLayoutEffect, useRef } from "preact/hooks";
import { Carried } from "../carried";
import { ask } from "../client";
import type { ByHand, Look, LookAsked, SceneFile, View, ViewName } from "../interface";
import { Latest } from "../latest";
import { contentOf, pieceOf } from "../line/svg";
import { trouble } from "../link";
import { Turning } from "../space/turning";
import { UseBar, UseChip } from "../use";
import { FullScreen } from "./full_screen";
import { stateAt } from "./playing";
import type { Actor } from "./tale";
import { actorsOf, alongPipe, taleOf } from "./tale";

type Tab = ViewName | "space";

const TABS: readonly { tab: Tab; title: string }[] = [
  { tab: "scene", title: "As a picture" },
  { tab: "space", title: "Turning" },
  { tab: "plan", title: "Plan" },
  { tab: "section", title: "Along the route" },
];

export function Stage({ file, title }: { file: SceneFile; title: string }) {
  const box = useRef<HTMLDivElement>(null);
  const hand = useSignal<ByHand>({ pressure_bar: 0, temperature_c: file.lowest_c });
  const look = useLooks(file, hand);
  const tab = useSignal<Tab>("scene");
  const play = usePlay(file, hand);
  const push = (next: ByHand) => {
    play.stop();
    hand.value = next;
  };
  return (
    <section class="stage sheet" ref={box} aria-label={`The stage: ${title}`}>
      <div class="stage-tools">
        <div class="tabs" role="group" aria-label="View">
          {TABS.map((one) => (
            <button key={one.tab} type="button" aria-pressed={tab.value === one.tab} onClick={() => (tab.value = one.tab)}>
              {one.title}
            </button>
          ))}
        </div>
        <span class="stage-gap" />
        <button type="button" class="button" onClick={play.on.value ? play.stop : play.start}>
          {play.on.value ? "Stop" : "Play it"}
        </button>
        <FullScreen box={box} />
      </div>
      <div class="stage-picture">
        <Seen file={file} tab={tab.value} look={look} />
      </div>
      <Hands file={file} hand={hand.value} push={push} />
      <Numbers file={file} look={look.value} />
    </section>
  );
}

/** What is drawn otherwise than it is; the turning view says it itself. */
function noteOf(view: View, look: Look | null): string {
  if (view.view === "scene") return view.title;
  return look === null ? "" : `Movements are drawn ${Number(look.exaggeration.toFixed(1))} times as far.`;
}

/** The look that the server gives of what the hand holds: the latest one, one request at a time. */
function useLooks(file: SceneFile, hand: Signal<ByHand>): Signal<Look | null> {
  const look = useSignal<Look | null>(null);
  const latest = useRef<Latest<ByHand, Look> | null>(null);
  latest.current ??= new Latest<ByHand, Look>(
    (by_hand, number) => ask<Look>("/api/look", lookAsked(file.file, by_hand, number)),
    (answer) => (look.value = alongPipe(answer, file.outline)),
    trouble,
  );
  useSignalEffect(() => latest.current?.want(hand.value));
  useEffect(() => () => latest.current?.drop(), []);
  return look;
}

function lookAsked(scene: string, by_hand: ByHand, number: number): LookAsked {
  return { number, revision: 0, scene, step: null, by_hand, scenario: "no friction", moved: null, exaggeration: 0 };
}

/** The play, frame by frame; it ends by itself, or when a hand takes over. */
function usePlay(file: SceneFile, hand: Signal<ByHand>) {
  const on = useSignal(false);
  useSignalEffect(() => {
    if (!on.value) return undefined;
    const began = performance.now();
    const still = matchMedia("(prefers-reduced-motion: reduce)").matches;
    let frame = requestAnimationFrame(step);
    function step(now: number): void {
      const state = stateAt(file, now - began, still);
      if (state === null) on.value = false;
      else {
        hand.value = state;
        frame = requestAnimationFrame(step);
      }
    }
    return () => cancelAnimationFrame(frame);
  });
  return { on, start: () => (on.value = true), stop: () => (on.value = false) };
}

function Seen({ file, tab, look }: { file: SceneFile; tab: Tab; look: Signal<Look | null> }) {
  const chosen = useSignal("");
  const { outline, views, solids } = file;
  if (tab !== "space") {
    const view = views.find((one) => one.view === tab);
    return view === undefined ? null : <Drawn view={view} look={look} />;
  }
  return (
    <Turning
      title={`Line ${outline.name}`}
      solids={solids}
      whose={file.file}
      places={outline.places}
      look={look}
      chosen={chosen.value}
      choose={(id) => (chosen.value = id)}
    />
  );
}

/** A drawing, and what moves over it. */
function Drawn({ view, look }: { view: View; look: Signal<Look | null> }) {
  const [base, over] = [useRef<SVGGElement>(null), useRef<SVGGElement>(null)];
  useLayoutEffect(() => base.current?.replaceChildren(contentOf(view.svg)), [view.svg]);
  const which = useSignal(view);
  which.value = view;
  useSignalEffect(() => {
    const { line, view: name } = which.value;
    const overlay = look.value?.overlays.find((one) => one.line === line && one.view === name);
    over.current?.replaceChildren(pieceOf(overlay?.svg ?? ""));
  });
  return (
    <>
      <svg class="drawing" role="img" aria-label={view.title} viewBox={`0 0 ${view.width} ${view.height}`}>
        <g ref={base} />
        <g ref={over} class="overlay" />
      </svg>
      <p class="stage-note small quiet">{noteOf(view, look.value)}</p>
    </>
  );
}

interface HandsProps {
  file: SceneFile;
  hand: ByHand;
  push: (next: ByHand) => void;
}

function Hands({ file, hand, push }: HandsProps) {
  const { highest_bar, highest_c, lowest_c } = file;
  const states: readonly { title: string; to: ByHand }[] = [
    { title: "As installed", to: { pressure_bar: 0, temperature_c: lowest_c } },
    { title: "Pressure, cold", to: { pressure_bar: highest_bar, temperature_c: lowest_c } },
    { title: "Hot, no pressure", to: { pressure_bar: 0, temperature_c: highest_c } },
    { title: "Hot, at pressure", to: { pressure_bar: highest_bar, temperature_c: highest_c } },
  ];
  return (
    <div class="hands">
      <Lever name="Pressure" unit="bar(g)" value={hand.pressure_bar} low={0} high={highest_bar} step={0.1} figures={1} set={(pressure_bar) => push({ ...hand, pressure_bar })} />
      <Lever name="Temperature" unit="°C" value={hand.temperature_c} low={lowest_c} high={highest_c} step={1} figures={0} set={(temperature_c) => push({ ...hand, temperature_c })} />
      <div class="corners" role="group" aria-label="Go to">
        {states.map(({ title, to }) => (
          <button key={title} type="button" class="button" aria-pressed={same(hand, to)} onClick={() => push(to)}>
            {title}
          </button>
        ))}
      </div>
    </div>
  );
}

function same(a: ByHand, b: ByHand): boolean {
  return a.pressure_bar === b.pressure_bar && a.temperature_c === b.temperature_c;
}

interface LeverProps {
  name: string;
  unit: string;
  value: number;
  low: number;
  high: number;
  step: number;
  figures: number;
  set: (value: number) => void;
}

function Lever({ name, unit, value, low, high, step, figures, set }: LeverProps) {
  const words = value.toFixed(figures);
  return (
    <label class="lever">
      <span class="lever-name">{name}</span>
      <span class="lever-value">
        <strong class="number">{words}</strong> {unit}
      </span>
      <input
        type="range"
        aria-label={`${name}, ${unit}`}
        aria-valuetext={`${words} ${unit}`}
        min={low}
        max={high}
        step={step}
        value={value}
        onInput={(event) => set(event.currentTarget.valueAsNumber)}
      />
    </label>
  );
}

function Numbers({ file, look }: { file: SceneFile; look: Look | null }) {
  if (look === null) return <div class="actors" />;
  return (
    <div class="actors">
      <p class="tale">{look.trouble === "" ? taleOf(look) : look.trouble}</p>
      <ul>
        {actorsOf(file.outline, look).map((actor) => (
          <ActorRow key={actor.id} actor={actor} />
        ))}
      </ul>
    </div>
  );
}

function ActorRow({ actor }: { actor: Actor }) {
  return (
    <li class="actor">
      <span class="actor-name">{actor.name}</span>
      <span class="actor-number">
        <strong class="number">{actor.number}</strong> {actor.unit}
      </span>
      <UseBar use={actor.use} worst={null} />
      <span class="actor-words quiet small">{actor.words}</span>
      {actor.use !== null && (
        <span class="small">
          use <UseChip use={actor.use} />
        </span>
      )}
      <Carried takeup={actor.takeup} />
    </li>
  );
}
