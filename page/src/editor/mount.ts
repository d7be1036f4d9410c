// The text editor: what it shows is the document's text, and what is typed goes to the document.     (editor/mount.ts)
import { defaultKeymap, history, historyKeymap, indentWithTab } from "@codemirror/commands";
import { yaml } from "@codemirror/lang-yaml";
import { bracketMatching, indentOnInput, indentUnit } from "@codemirror/language";
import { lintGutter, setDiagnostics } from "@codemirror/lint";
import { highlightSelectionMatches, searchKeymap } from "@codemirror/search";
import { Annotation, Compartment, EditorState, Transaction } from "@codemirror/state";
import { drawSelection, EditorView, highlightActiveLine, highlightActiveLineGutter, keymap, lineNumbers } from "@codemirror/view";
import type { Fault } from "../interface";
import { leastEdits } from "./diff";
import { findName, rangeOf } from "./find";
import { deskTheme } from "./theme";

const fromElsewhere = Annotation.define<boolean>();

const wraps = new Compartment();

/** Whether long lines go on in a new row, or run on to the right. */
export function setWrap(view: EditorView, wrap: boolean): void {
  view.dispatch({ effects: wraps.reconfigure(wrap ? EditorView.lineWrapping : []) });
}

/** The nonce that the server allows style sheets with; "" where none is asked for. */
function nonce(): string {
  return document.querySelector<HTMLMetaElement>('meta[name="style-nonce"]')?.content ?? "";
}

export function mount(parent: HTMLElement, text: string, wrap: boolean, typed: (text: string) => void): EditorView {
  const given = nonce();
  const extensions = [
    lineNumbers(),
    lintGutter(),
    highlightActiveLine(),
    highlightActiveLineGutter(),
    history(),
    drawSelection(),
    indentOnInput(),
    bracketMatching(),
    highlightSelectionMatches(),
    indentUnit.of("  "),
    yaml(),
    wraps.of(wrap ? EditorView.lineWrapping : []),
    deskTheme,
    keymap.of([...defaultKeymap, ...historyKeymap, ...searchKeymap, indentWithTab]),
    EditorView.contentAttributes.of({ tabindex: "0", "aria-label": "The line's file. Escape, then Tab, leaves it." }),
    EditorView.updateListener.of((update) => {
      const foreign = update.transactions.some((one) => one.annotation(fromElsewhere) === true);
      if (update.docChanged && !foreign) typed(update.state.doc.toString());
    }),
    ...(given === "" ? [] : [EditorView.cspNonce.of(given)]),
  ];
  return new EditorView({ parent, state: EditorState.create({ doc: text, extensions }) });
}

/** Show a text that changed elsewhere: only what differs is replaced, and it is not the editor's to undo. */
export function show(view: EditorView, text: string): void {
  const changes = leastEdits(view.state.doc.toString(), text);
  if (changes.length === 0) return;
  view.dispatch({ changes, annotations: [fromElsewhere.of(true), Transaction.addToHistory.of(false)] });
}

export function mark(view: EditorView, faults: readonly Fault[]): void {
  const text = view.state.doc.toString();
  const marks = faults.map((fault) => ({
    ...rangeOf(text, fault.line, fault.column),
    severity: "error" as const,
    message: fault.message,
  }));
  marks.sort((a, b) => a.from - b.from);
  view.dispatch(setDiagnostics(view.state, marks));
}

/** Go to a line and column, and bring the keyboard there. */
export function goTo(view: EditorView, line: number, column: number): void {
  const { from } = rangeOf(view.state.doc.toString(), line, column);
  view.dispatch({ selection: { anchor: from }, effects: EditorView.scrollIntoView(from, { y: "center" }) });
  view.focus();
}

/** Show where a place is named, without taking the keyboard. */
export function reveal(view: EditorView, name: string): void {
  const at = findName(view.state.doc.toString(), name);
  if (at === -1 || view.hasFocus) return;
  view.dispatch({
    selection: { anchor: at, head: at + name.length },
    effects: EditorView.scrollIntoView(at, { y: "center" }),
  });
}
