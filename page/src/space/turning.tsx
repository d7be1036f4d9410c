// The turning view of one or more lines: canvas, labels, buttons, keys.     (space/turning.tsx)
import "./space.css";
import type { ReadonlySignal } from "@preact/signals";
import { useSignal, useSignalEffect } from "@preact/signals";
import type { RefObject } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import type { Look, Place, Solids } from "../interface";
import { Icon } from "../shell/icon";
import { seen } from "../theme";
import type { Arm } from "./compass";
import { armsOf } from "./compass";
import type { EyeName } from "./camera";
import { labelsOf } from "./labels";
import { canDraw, Stage, tonesOf } from "./stage";
import { Labels } from "./written";

interface Props {
  /** What is seen, in a few words. */
  title: string;
  solids: Solids;
  /** Whose solids these are: others are seen anew from the first eye. */
  whose: string;
  places: readonly Place[];
  look: ReadonlySignal<Look | null>;
  chosen: string;
  choose: (id: string) => void;
}

export function Turning(props: Props) {
  const [able] = useState(canDraw);
  if (!able) return <p class="quiet pad">This browser cannot draw in space here. Plan and section show the same line.</p>;
  return <Drawn {...props} />;
}

function Drawn(props: Props) {
  const box = useRef<HTMLDivElement>(null);
  const stage = useStage(box, props);
  const { title, look } = props;
  return (
    <div class="space">
      <div
        class="space-view"
        ref={box}
        tabIndex={0}
        role="group"
        aria-label={`${title}, in space. Arrow keys turn it, with Shift they move it, plus and minus zoom it, 0 shows all of it.`}
        onKeyDown={(event) => keys(event, stage.current)}
      >
        <Canvas title={title} look={look} />
        <div class="space-labels" aria-hidden="true" />
        <p class="space-note small" />
        <svg class="space-compass" width="60" height="60" viewBox="-30 -30 60 60" aria-hidden="true" />
      </div>
      <Buttons stage={stage} />
    </div>
  );
}

/** The canvas never draws itself anew: only its name follows the look. */
function Canvas({ title, look }: { title: string; look: ReadonlySignal<Look | null> }) {
  const now = look.value;
  const said = now === null ? "" : ` ${now.words}.`;
  return <canvas role="img" aria-label={`${title} in space.${said} Its numbers are in the list of places.`} />;
}

function useStage(box: RefObject<HTMLDivElement>, props: Props): RefObject<Stage> {
  const stage = useRef<Stage>(null);
  const labels = useRef<Labels>(null);
  const shown = useSignal(props);
  shown.value = props;
  const built = useRef<{ solids: Solids | null; whose: string }>({ solids: null, whose: "" });
  useEffect(() => {
    const [canvas, host, compass] = ["canvas", ".space-labels", ".space-compass"].map((one) => box.current?.querySelector(one));
    if (!(canvas instanceof HTMLCanvasElement && host instanceof HTMLElement && compass instanceof SVGElement)) return undefined;
    const written = (labels.current = new Labels(host));
    const made: Stage = (stage.current = new Stage(canvas, {
      pressed: (id) => shown.peek().choose(id),
      drawn: () => {
        const room = { width: canvas.clientWidth, height: canvas.clientHeight };
        written.place((id) => made.onCanvas(id), room, made.drawnAt());
        drawCompass(compass, armsOf(made.now()));
      },
    }));
    const observer = new ResizeObserver(() => made.resize(canvas.clientWidth, canvas.clientHeight));
    observer.observe(canvas);
    shown.value = { ...shown.peek() }; // now there is a stage to show it on
    return () => {
      observer.disconnect();
      made.dispose();
      stage.current = null;
    };
  }, []);
  useSignalEffect(() => {
    const { solids, whose, places, look, chosen } = shown.value;
    const [now, theme] = [look.value, seen.value];
    if (stage.current === null || box.current === null) return;
    if (built.current.solids !== solids) stage.current.build(solids, built.current.whose !== whose);
    built.current = { solids, whose };
    labels.current?.say(labelsOf(places, now, chosen), chosen);
    const times = stage.current.show(now, tonesOf(box.current, theme), chosen);
    const note = box.current.querySelector(".space-note");
    if (note !== null) note.textContent = noteOf(now, times, solids.thick);
  });
  return stage;
}

/** What is drawn otherwise than it is; "" where nothing is. */
function noteOf(look: Look | null, times: number, thick: number): string {
  const fewer = look !== null && times < look.exaggeration ? " here, so that no bellows is drawn inside out" : "";
  const moved = `Movements are drawn ${Number(times.toFixed(1))} times as far${fewer}.`;
  return thick > 1 ? `${moved} All is drawn ${thick} times as thick as it is.` : moved;
}

function Buttons({ stage }: { stage: RefObject<Stage> }) {
  const see = (eye: EyeName) => stage.current?.from(eye);
  return (
    <div class="space-buttons" role="group" aria-label="How it is seen">
      <Icon name="plus" title="Nearer (+)" press={() => stage.current?.zoom(ZOOM)} />
      <Icon name="minus" title="Farther (-)" press={() => stage.current?.zoom(1 / ZOOM)} />
      <Icon name="fit" title="All of it (0)" press={() => stage.current?.fit()} />
      <button type="button" class="button" onClick={() => see("turned")}>
        Turned
      </button>
      <button type="button" class="button" onClick={() => see("plan")}>
        From above
      </button>
      <button type="button" class="button" onClick={() => see("side")}>
        From the side
      </button>
    </div>
  );
}

const ZOOM = 1.2;
const TURN = Math.PI / 24;
const PAN = 0.08; // of the picture's height

const WAYS: Record<string, readonly [number, number]> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

function keys(event: KeyboardEvent, stage: Stage | null): void {
  if (stage === null || event.ctrlKey || event.metaKey || event.altKey) return;
  const way = WAYS[event.key];
  if (way !== undefined && event.shiftKey) stage.pan(way[0] * PAN, way[1] * PAN);
  else if (way !== undefined) stage.turn(way[0] * TURN, way[1] * TURN);
  else if (event.key === "+" || event.key === "=") stage.zoom(ZOOM);
  else if (event.key === "-") stage.zoom(1 / ZOOM);
  else if (event.key === "0") stage.fit();
  else return;
  event.preventDefault();
}

const SPACE = "http://www.w3.org/2000/svg";
const LETTER = 1.42; // so far out as this many arms stands the name of an axis

function drawCompass(compass: SVGElement, arms: readonly Arm[]): void {
  if (compass.childElementCount === 0) compass.append(...arms.flatMap(() => [made("line"), made("text")]));
  arms.forEach((arm, k) => {
    const [line, text] = [compass.children[2 * k]!, compass.children[2 * k + 1]!];
    line.setAttribute("x2", arm.x.toFixed(1));
    line.setAttribute("y2", arm.y.toFixed(1));
    text.setAttribute("x", (arm.x * LETTER).toFixed(1));
    text.setAttribute("y", (arm.y * LETTER + 3.5).toFixed(1));
    text.textContent = arm.seen ? arm.name : "";
  });
}

function made(name: "line" | "text"): SVGElement {
  return document.createElementNS(SPACE, name);
}
