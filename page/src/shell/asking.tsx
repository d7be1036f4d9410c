// Questions that cannot be passed over: two texts, and a file that would be written over.     (shell/asking.tsx)
import { useEffect, useRef } from "preact/hooks";
import type { ComponentChildren } from "preact";
import { compared } from "../editor/diff";
import { chooseText, overwriteAsked, save, typed } from "../store";

export function Asking() {
  return (
    <>
      <TwoTexts />
      <Overwrite />
    </>
  );
}

export function Dialog({ title, children }: { title: string; children: ComponentChildren }) {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => dialog.current?.showModal(), []);
  return (
    <dialog ref={dialog} class="sheet" aria-labelledby="dialog-title" onCancel={(event) => event.preventDefault()}>
      <h2 id="dialog-title">{title}</h2>
      {children}
    </dialog>
  );
}

/** Words that are read out before the text of a line that only one of two has. */
const MARKS = { " ": "both: ", "-": "theirs: ", "+": "yours: " } as const;

function TwoTexts() {
  const { theirs, mine } = typed.value;
  if (theirs === null || mine === null) return null;
  return (
    <Dialog title="The text changed elsewhere while you typed">
      <p>Nothing was overwritten. Lines with − stand only in the other text, lines with + only in yours.</p>
      <div class="compared" tabIndex={0} role="region" aria-label="Both texts where they differ">
        {compared(theirs, mine).map((line, i) => (
          <div key={i} class={line.mark === " " ? "both" : line.mark === "-" ? "theirs" : "mine"}>
            <span aria-hidden="true">{line.mark === "-" ? "−" : line.mark}</span>
            <span class="unseen">{MARKS[line.mark]}</span>
            {line.text}
          </div>
        ))}
      </div>
      <div class="buttons">
        <button type="button" class="button first" onClick={() => chooseText("mine")}>
          Keep mine
        </button>
        <button type="button" class="button" onClick={() => chooseText("theirs")}>
          Take the other text
        </button>
      </div>
    </Dialog>
  );
}

function Overwrite() {
  if (overwriteAsked.value === "") return null;
  return (
    <Dialog title="Write over the file on disk?">
      <p>{overwriteAsked.value}</p>
      <div class="buttons">
        <button type="button" class="button first" onClick={() => (overwriteAsked.value = "")}>
          Leave the file as it is
        </button>
        <button type="button" class="button" onClick={() => void save(true)}>
          Write over it
        </button>
      </div>
    </Dialog>
  );
}
