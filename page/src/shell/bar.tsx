// The top of the desk: what is open, what stands of it, and where to go.     (shell/bar.tsx)
import type { StudyNews } from "../interface";
import type { Room } from "../store";
import { blank, change, opened, room, save, study, typed, working } from "../store";
import { theme } from "../theme";
import { Icon } from "./icon";

const ROOMS: readonly { room: Room; title: string }[] = [
  { room: "line", title: "Line" },
  { room: "proposals", title: "Proposals" },
  { room: "papers", title: "Papers" },
  { room: "scenes", title: "Scenes" },
];

export function Bar() {
  const now = opened.value;
  return (
    <header class="top">
      <div class="top-name">
        <h1>{now?.project || "Takeup desk"}</h1>
        <p class="quiet small">
          {now?.file ?? ""} {now !== null && <span>· {savedWords()}</span>}
        </p>
      </div>
      <nav aria-label="Rooms">
        <ul class="rooms">
          {ROOMS.map((one) => (
            <li key={one.room}>
              <button
                type="button"
                aria-current={room.value === one.room ? "page" : undefined}
                onClick={() => (room.value = one.room)}
              >
                {one.title}
              </button>
            </li>
          ))}
        </ul>
      </nav>
      <Verdict news={study.value} />
      <div class="top-tools" role="group" aria-label="File">
        <Undo way="undo" words={now?.undo ?? ""} keys="Ctrl+Z" />
        <Undo way="redo" words={now?.redo ?? ""} keys="Ctrl+Shift+Z" />
        <button
          type="button"
          class="button first"
          disabled={now === null || (now.saved && typed.value.mine === null && now.outside !== "gone") || working.value}
          title="Save the file (Ctrl+S)"
          onClick={() => void save(false)}
        >
          Save
        </button>
        <ThemeSwitch />
      </div>
    </header>
  );
}

function savedWords(): string {
  if (typed.value.mine !== null) return "typed, not yet taken in";
  return opened.value?.saved === true ? "saved" : "not saved";
}

function Undo({ way, words, keys }: { way: "undo" | "redo"; words: string; keys: string }) {
  const name = way === "undo" ? "Undo" : "Redo";
  const title = words === "" ? `Nothing to ${way}` : `${name}: ${words} (${keys})`;
  return <Icon name={way} title={title} disabled={words === ""} press={() => void change({ do: way })} />;
}

/** The verdict of the whole study, or how far it is; its reasons open below it. */
function Verdict({ news }: { news: StudyNews | null }) {
  if (news === null) return <p class="verdict quiet">Study: not begun</p>;
  const running = news.job === "running";
  const head = (running ? news.words : news.verdict || news.words) || (blank.value ? "no study: the file has faults" : "the study is to come");
  const verdict = news.verdict === "" ? head : `Verdict: ${head}`;
  const told = running ? head : verdict;
  const old = news.revision !== (opened.value?.revision ?? news.revision);
  return (
    <details class="verdict" data-popover>
      <summary>
        <span class="verdict-sign" aria-hidden="true">
          {running || old ? "…" : (SIGNS[news.verdict] ?? "–")}
        </span>
        <span class="verdict-words">{old && news.verdict !== "" && !running ? `Before the last change: ${head}` : told}</span>
        {!running && news.because[0] !== undefined && <span class="verdict-first quiet small">{news.because[0]}</span>}
      </summary>
      <div class="verdict-more sheet">
        {news.words !== "" && <p>{news.words}</p>}
        <ul>
          {news.because.map((words) => (
            <li key={words}>{words}</li>
          ))}
        </ul>
        {news.took_s > 0 && <p class="quiet small">The whole study took {news.took_s.toFixed(1)} s.</p>}
      </div>
    </details>
  );
}

const SIGNS: Record<string, string> = { passes: "✓", close: "≈", fails: "✕", "not proved": "?" };

function ThemeSwitch() {
  return (
    <label class="theme">
      <span class="unseen">Light or dark</span>
      <select
        class="field small"
        value={theme.value}
        onChange={({ currentTarget: { value } }) => (theme.value = value === "light" || value === "dark" ? value : "system")}
      >
        <option value="system">As the system</option>
        <option value="light">Light</option>
        <option value="dark">Dark</option>
      </select>
    </label>
  );
}
