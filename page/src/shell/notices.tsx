// What the person must know: the link, the file on disk, what was recovered, and small notices.     (shell/notices.tsx)
import { signal } from "@preact/signals";
import type { Document } from "../interface";
import { change, dismiss, link, notices, opened, study } from "../store";
import { Icon } from "./icon";

const LINKS = {
  away: "The desk's server does not answer; nothing is lost: your text stays here and is sent when it answers again.",
  stranger:
    "The server was started anew: open the address it printed in this browser, then this window goes on by itself.",
} as const;

/** Which notices were put away, in words, so that the same thing happening again shows again. */
const putAway = signal<ReadonlySet<string>>(new Set());

function away(key: string): void {
  putAway.value = new Set([...putAway.value, key]);
}

export function Notices() {
  const how = link.value;
  const now = opened.value;
  return (
    <div class="notices">
      {how !== "here" && (
        <p class="notice strong" role="alert">
          {LINKS[how]}
        </p>
      )}
      {now !== null && <Outside now={now} />}
      {now !== null && <Recovered now={now} />}
      {notices.value.map((notice) => (
        <div key={notice.number} class="notice">
          <p>{notice.words}</p>
          <Icon name="close" title="Put this notice away" press={() => dismiss(notice.number)} />
        </div>
      ))}
      <p class="unseen" role="status">
        {notices.value.at(-1)?.words ?? ""}
      </p>
      <p class="unseen" role="status">
        {study.value === null || study.value.job === "running" ? "" : `Verdict of the study: ${study.value.verdict}`}
      </p>
    </div>
  );
}

function Outside({ now }: { now: Document }) {
  const key = `${now.outside} ${now.file}`;
  if (now.outside === "same") {
    if (putAway.peek().size > 0) queueMicrotask(() => (putAway.value = new Set([...putAway.peek()].filter(isRecovered))));
    return null;
  }
  if (putAway.value.has(key)) return null;
  const words =
    now.outside === "gone"
      ? `${now.file} is no longer on disk. The desk still has its text; saving writes it anew.`
      : `${now.file} was changed on disk by something else. Nothing was overwritten.`;
  return (
    <div class="notice strong" role="alert">
      <p>{words}</p>
      {now.outside === "changed" && (
        <button type="button" class="button" onClick={() => void change({ do: "outside" })}>
          Take the file's text
        </button>
      )}
      <button type="button" class="button" onClick={() => away(key)}>
        Keep mine
      </button>
    </div>
  );
}

const RECOVERED = "recovered: ";

function isRecovered(key: string): boolean {
  return key.startsWith(RECOVERED);
}

function Recovered({ now }: { now: Document }) {
  const key = RECOVERED + now.recovered;
  if (now.recovered === "" || putAway.value.has(key)) return null;
  return (
    <div class="notice" role="status">
      <p>{now.recovered}</p>
      <Icon name="close" title="Put this notice away" press={() => away(key)} />
    </div>
  );
}
