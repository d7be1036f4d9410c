// Labels as elements over the canvas: written when a look comes, put in place when the eye moves.     (space/written.ts)
import { colourOf, inkOn, useText } from "../colour";
import type { Box, Label } from "./labels";
import { spread } from "./labels";

interface Written {
  element: HTMLElement;
  words: string;
  width: number;
  height: number;
}

const OVER = 12; // pixels between a place and its label

/** The labels of one view. What they say is also in the list of places, so they are not read aloud. */
export class Labels {
  private readonly those = new Map<string, Written>();
  private order: string[] = [];

  constructor(private readonly host: HTMLElement) {}

  /** Say these, and no others; the first one has room before the others. */
  say(labels: readonly Label[], chosen: string): void {
    const sorted = [...labels].sort((a, b) => rank(b, chosen) - rank(a, chosen));
    this.order = sorted.map((label) => label.id);
    for (const [id, written] of this.those) {
      if (this.order.includes(id)) continue;
      written.element.remove();
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
    const written = { element, words: "", width: 0, height: 0 };
    this.those.set(id, written);
    return written;
  }

  /** Put all in place; `at` says where a place is on the canvas [pixels], null where it is not seen. */
  place(at: (id: string) => { x: number; y: number } | null, room: { width: number; height: number }): void {
    const shown: { written: Written; box: Box }[] = [];
    for (const id of this.order) {
      const [written, point] = [this.those.get(id)!, at(id)];
      written.element.hidden = point === null;
      if (point === null) continue;
      const { width, height } = written;
      shown.push({ written, box: { x: point.x - width / 2, y: point.y - height - OVER, width, height } });
    }
    const boxes = spread(shown.map((one) => one.box), room);
    shown.forEach(({ written }, k) => {
      const box = boxes[k] ?? null;
      written.element.hidden = box === null;
      if (box !== null) written.element.style.transform = `translate(${Math.round(box.x)}px, ${Math.round(box.y)}px)`;
    });
  }
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
