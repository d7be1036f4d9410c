// The room of the line: the file, the picture, the places, and the track of states below.     (line/room.tsx)
import { signal } from "@preact/signals";
import { lazy } from "../lazy";
import type { ViewTab } from "../store";
import { blank, lineName, opened, views, viewTab, whyOf } from "../store";
import { Icon } from "../shell/icon";
import { Track } from "../track/track";
import { WhyPanel } from "../why/why";
import { SNAPS_M } from "./along";
import { Divider } from "./divide";
import { fileWidth } from "./divider";
import { PlaceList } from "./list";
import { snapStep } from "./moving";
import { AddBar, PaletteButtons } from "./palette";
import { Picture } from "./picture";
import { Stale } from "./stale";

const Space = lazy(async () => (await import("../space/space")).Space);
const Editor = lazy(async () => (await import("../editor/editor")).Editor);

const WIDE = 1360; // from this width on the file lies open beside the picture
const KEY = "takeup.file";

function keptOpen(): boolean {
  const kept = localStorage.getItem(KEY);
  return kept === null ? innerWidth >= WIDE : kept === "open";
}

const fileOpen = signal(keptOpen());

function turnFile(): void {
  fileOpen.value = !fileOpen.value;
  localStorage.setItem(KEY, fileOpen.value ? "open" : "closed");
}

export function LineRoom() {
  const why = whyOf.value !== "";
  const wide = fileOpen.value || blank.value; // what has faults and no picture is looked at as text
  return (
    <main
      class={`line-room${wide ? " with-file" : ""}${why ? " with-why" : ""}`}
      style={{ "--file": `${fileWidth.value}%` }}
    >
      {wide && (
        <div class="left sheet">
          <Editor />
        </div>
      )}
      {wide && <Divider />}
      <section class="middle sheet" aria-label="The line">
        <Tools />
        <AddBar />
        <Stale fileOpen={fileOpen.value} show={turnFile} />
        <Seen />
      </section>
      <aside class="right sheet" aria-label="Places and reasons">
        {why ? <WhyPanel /> : <PlaceList />}
      </aside>
      {!blank.value && <Track />}
    </main>
  );
}

const TABS: readonly { tab: ViewTab; title: string }[] = [
  { tab: "plan", title: "Plan" },
  { tab: "section", title: "Along the route" },
  { tab: "space", title: "Turning" },
];

function Tools() {
  const lines = opened.value?.lines ?? [];
  return (
    <div class="tools">
      <Icon name="file" title={fileOpen.value ? "Put the file away" : "Show the file"} press={turnFile} pressed={fileOpen.value} />
      <div class="tabs" role="group" aria-label="View">
        {TABS.map((one) => (
          <button key={one.tab} type="button" aria-pressed={viewTab.value === one.tab} onClick={() => (viewTab.value = one.tab)}>
            {one.title}
          </button>
        ))}
      </div>
      {lines.length > 1 && (
        <label class="small">
          Line{" "}
          <select class="field" value={lineName.value} onChange={(event) => (lineName.value = event.currentTarget.value)}>
            {lines.map((line) => (
              <option key={line.name}>{line.name}</option>
            ))}
          </select>
        </label>
      )}
      <span class="tools-gap" />
      <label class="small">
        Snap to{" "}
        <select class="field" value={snapStep.value} onChange={(event) => (snapStep.value = Number(event.currentTarget.value))}>
          {SNAPS_M.map((step) => (
            <option key={step} value={step}>
              {step} m
            </option>
          ))}
        </select>
      </label>
      {lines.length > 0 && <PaletteButtons />}
    </div>
  );
}

function Seen() {
  const tab = viewTab.value;
  if (tab === "space") return <Space />;
  const view = views.value?.views.find((one) => one.line === lineName.value && one.view === tab);
  if (view !== undefined) return <Picture view={view} />;
  if (blank.value) return <Blank />;
  return <p class="pad quiet">{waitingWords()}</p>;
}

const MOST = 8;

/** What stands in the way of a picture, for who opens a file that cannot be read. */
function Blank() {
  const now = opened.value;
  const faults = now?.faults ?? [];
  return (
    <div class="pad blank">
      <p>
        <strong>
          {now?.text.trim() === "" ? "The file is empty." : `The file has ${faults.length === 1 ? "a fault" : `${faults.length} faults`}.`}
        </strong>{" "}
        {now?.text.trim() === ""
          ? "Paste a line's text into it, or let “takeup new” write a file to begin from."
          : "The picture comes when nothing is wrong with the text; press a fault below the text to go to its line."}
      </p>
      <ol>
        {faults.slice(0, MOST).map((fault, i) => (
          <li key={i} class="small">
            <span class="number quiet">
              {fault.line}:{fault.column}
            </span>{" "}
            {fault.message}
          </li>
        ))}
      </ol>
      {faults.length > MOST && <p class="quiet small">and {faults.length - MOST} more</p>}
    </div>
  );
}

function waitingWords(): string {
  const now = opened.value;
  if (now !== null && now.busy !== "") return `${now.busy} …`;
  return "The drawing is on its way …";
}
