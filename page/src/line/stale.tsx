// Where the picture is not that of the text: why, and a way back.     (line/stale.tsx)
import type { Document } from "../interface";
import { change, opened, typed } from "../store";

/** What taking back would mend: the text has faults since something was put in, moved or taken out on the picture. */
export function backWords(now: Pick<Document, "faults" | "undo">): string {
  return now.faults.length === 0 || now.undo === "" || now.undo.startsWith(TYPING) ? "" : now.undo;
}

const TYPING = "typing";

/** Where the picture is not that of the text it must say so: there are faults, or something is worked out first. */
export function Stale({ fileOpen, show }: { fileOpen: boolean; show: () => void }) {
  const now = opened.value;
  if (now === null || now.outline_revision === 0 || (now.readable && now.busy === "")) return null;
  const count = now.faults.length;
  const why = count === 0 ? now.busy : `The text has ${count === 1 ? "a fault" : `${count} faults`}`;
  const back = typed.value.mine === null ? backWords(now) : "";
  return (
    <div class="stale">
      <div role="status">
        <p class="stale-words">{why}: the picture still shows the line as it was before.</p>
        {back !== "" && <p class="small fault-words">{now.faults[0]?.message}</p>}
      </div>
      <div class="stale-do">
        {back !== "" && (
          <button type="button" class="button small first" onClick={() => void change({ do: "undo" })}>
            Take it back: {back}
          </button>
        )}
        {count > 0 && !fileOpen && (
          <button type="button" class="button small" onClick={show}>
            Show the file
          </button>
        )}
      </div>
    </div>
  );
}
