// Buttons that are a sign; the words are in their name and title.     (shell/icon.tsx)
const PATHS = {
  plus: "M9 3v12M3 9h12",
  minus: "M3 9h12",
  fit: "M3 7V3h4M11 3h4v4M15 11v4h-4M7 15H3v-4",
  undo: "M6 4L2.5 7.5 6 11M2.5 7.5h8a4 4 0 0 1 0 8H7",
  redo: "M12 4l3.5 3.5L12 11M15.5 7.5h-8a4 4 0 0 0 0 8H11",
  play: "M5 3l9 6-9 6z",
  pause: "M6 3v12M12 3v12",
  close: "M4 4l10 10M14 4L4 14",
  back: "M11 3L5 9l6 6",
  remove: "M3 5h12M7 5V3h4v2M5 5l1 10h6l1-10",
  first: "M4 3v12M14 3L7 9l7 6z",
  last: "M14 3v12M4 3l7 6-7 6z",
  file: "M4 2h7l3 3v11H4zM6.5 8h5M6.5 11h5",
} as const;

export type IconName = keyof typeof PATHS;

interface Props {
  name: IconName;
  title: string;
  press: () => void;
  disabled?: boolean;
  pressed?: boolean;
}

export function Icon({ name, title, press, disabled = false, pressed }: Props) {
  return (
    <button type="button" class="icon" aria-label={title} title={title} disabled={disabled} onClick={press} aria-pressed={pressed}>
      <svg viewBox="0 0 18 18" aria-hidden="true">
        <path d={PATHS[name]} />
      </svg>
    </button>
  );
}
