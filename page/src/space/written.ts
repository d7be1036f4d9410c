// Labels as elements over the canvas: written when a look comes, put in place when the eye moves.     (space/written.ts)
import { colourOf, inkOn, useText } from "../colour";
import type { Label } from "./labels";
import type { Box, Room, Spot } from "./spread";
import { leaderOf, spread } from "./spread";

interface Written {
  element: HTMLElement;
  words: string;
  width: number;
  height: number;
  leader: SVGLineElement;
  box: Box | null;
}

const SPACE = "http://www.w3.org/2000/svg";

/** The labels of one view. What they say is also in the list of places, so they are not read aloud. */
export class Labels {
  private readonly those = new Map<string, Written>();
  private order: string[] = [];

  private readonly leaders = document.createElementNS(SPACE, "svg");

  constructor(private readonly host: HTMLElement) {
    this.leaders.setAttribute("class", "space-leaders");
    host.append(this.leaders);
  }

  /** Say these, and no others; the first one has room before the others. */
  say(labels: readonly Label[], chosen: string): void {
    const sorted = [...labels].sort((a, b) => rank(b, chosen) - rank(a, chosen));
    this.order = sorted.map((label) => label.id);
    for (const [id, written] of this.those) {
      if (this.order.includes(id)) continue;
      written.element.remove();
      written.leader.remove();
      this.those.delete(id);
    }
    for (const label of sorted) this.write(label, label.id === chosen);
  }

  private write(label: Label, isChosen: boolean): void {
    const written = this.those.get(label.id) ?? this.added(label.id);
    const words = [label.name, label.number, label.use === null ? "" : useText(label.use), isChosen].join("\n");
    if (words === written.words) return;
    written.element.className = isChosen ? "space-label chosen" : "space-label";
    written.element.hidden = false; // else it would have no size
    written.element.replaceChildren(...parts(label));
    Object.assign(written, { words, width: written.element.offsetWidth, height: written.element.offsetHeight });
  }

  private added(id: string): Written {
    const element = document.createElement("span");
    this.host.append(element);
    const leader = document.createElementNS(SPACE, "line");
    this.leaders.append(leader);
    const written: Written = { element, words: "", width: 0, height: 0, leader, box: null };
    this.those.set(id, written);
    return written;
  }

  /** Put all in place; `at` says where a place is on the canvas [pixels], null where it is not seen. */
  place(at: (id: string) => Spot | null, room: Room, drawn: readonly Spot[]): void {
    const all = this.order.map((id) => ({ written: this.those.get(id)!, at: at(id) }));
    const seen = all.flatMap(({ written, at }) => (at === null ? [] : [{ written, at }]));
    const boxes = spread(seen.map(({ written, at }) => ({ ...written, at, before: written.box })), room, drawn);
    for (const { written, at } of all) if (at === null) put(written, null, null);
    seen.forEach(({ written, at }, k) => put(written, at, boxes[k] ?? null));
  }
}

function put(written: Written, at: Spot | null, box: Box | null): void {
  written.element.hidden = box === null;
  written.box = box;
  const leader = at === null || box === null ? null : leaderOf(box, at);
  written.leader.setAttribute("visibility", leader === null ? "hidden" : "visible");
  if (box !== null) written.element.style.transform = `translate(${Math.round(box.x)}px, ${Math.round(box.y)}px)`;
  if (leader === null) return;
  const [from, to] = leader;
  const ends = { x1: from.x, y1: from.y, x2: to.x, y2: to.y };
  for (const [name, value] of Object.entries(ends)) written.leader.setAttribute(name, value.toFixed(1));
}

function rank(label: Label, chosen: string): number {
  return label.id === chosen ? Infinity : (label.use ?? 0);
}

function parts(label: Label): HTMLElement[] {
  const found = [piece("span", "space-name", label.name), piece("span", "number", label.number)];
  if (label.use !== null) {
    const chip = piece("span", label.use > 1 ? "chip number over" : "chip number", useText(label.use));
    chip.style.backgroundColor = colourOf(label.use);
    chip.style.color = inkOn(label.use);
    found.push(chip);
  }
  return found.filter((one) => one.textContent !== "");
}

function piece(tag: "span", name: string, words: string): HTMLElement {
  const element = document.createElement(tag);
  element.className = name;
  element.textContent = words;
  return element;
}
