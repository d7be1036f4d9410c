// The file beside the picture, with its faults.     (editor/editor.tsx)
import type { EditorView } from "@codemirror/view";
import { signal, useSignalEffect } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { chosen, link, opened, places, typed, typeText } from "../store";
import { goTo, mark, mount, reveal, setWrap, show } from "./mount";

const KEY = "takeup.wrap";
const wrap = signal(localStorage.getItem(KEY) === "yes");

function turnWrap(): void {
  wrap.value = !wrap.value;
  localStorage.setItem(KEY, wrap.value ? "yes" : "no");
}

export function Editor() {
  const box = useRef<HTMLDivElement>(null);
  const editor = useRef<EditorView | null>(null);
  useEffect(() => {
    if (box.current === null) return undefined;
    editor.current = mount(box.current, typed.peek().mine ?? opened.peek()?.text ?? "", wrap.peek(), typeText);
    mark(editor.current, opened.peek()?.faults ?? []);
    return () => editor.current?.destroy();
  }, []);
  useSignalEffect(() => {
    const now = wrap.value;
    if (editor.current !== null) setWrap(editor.current, now);
  });
  useSignalEffect(() => {
    const text = typed.value.mine ?? opened.value?.text;
    if (text !== undefined && editor.current !== null) show(editor.current, text);
  });
  useSignalEffect(() => {
    const faults = opened.value?.faults ?? [];
    if (editor.current !== null && typed.value.mine === null) mark(editor.current, faults);
  });
  useSignalEffect(() => {
    const place = places.peek().get(chosen.value);
    if (place !== undefined && editor.current !== null) reveal(editor.current, place.name);
  });
  return (
    <section class="file" aria-labelledby="file-title">
      <div class="panel-head">
        <h2 id="file-title">{opened.value?.file ?? "The file"}</h2>
        <p class="quiet small" aria-live="polite">
          {stateWords()}
        </p>
        <button
          type="button"
          class="button small"
          title={wrap.value ? "Let long rows run on to the right" : "Let long rows go on below"}
          aria-pressed={wrap.value}
          onClick={turnWrap}
        >
          Wrap
        </button>
      </div>
      <div class="file-text" ref={box} />
      <Problems go={(line, column) => editor.current !== null && goTo(editor.current, line, column)} />
    </section>
  );
}

function stateWords(): string {
  if (typed.value.mine !== null) return link.value === "here" ? "typed, on its way" : "typed, kept here";
  const count = opened.value?.faults.length ?? 0;
  if (count === 0) return "no fault";
  return count === 1 ? "1 fault" : `${count} faults`;
}

function Problems({ go }: { go: (line: number, column: number) => void }) {
  const faults = opened.value?.faults ?? [];
  if (faults.length === 0) return null;
  return (
    <section class="problems" aria-label="Faults in the file">
      <ol>
        {faults.map((fault, i) => (
          <li key={i}>
            <button type="button" onClick={() => go(fault.line, fault.column)}>
              <span class="number quiet">
                {fault.line}:{fault.column}
              </span>
              <span>{fault.message}</span>
            </button>
          </li>
        ))}
      </ol>
    </section>
  );
}
