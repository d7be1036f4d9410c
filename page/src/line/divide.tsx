// The edge between the file and the picture, to be moved.     (line/divide.tsx)
import { fileWidth, LEAST, MOST, setFileWidth, widthByKey } from "./divider";

export function Divider() {
  const moved = (event: PointerEvent & { currentTarget: HTMLElement }) => {
    const room = event.currentTarget.closest(".line-room")?.getBoundingClientRect();
    if (room === undefined || !event.currentTarget.hasPointerCapture(event.pointerId)) return;
    setFileWidth((100 * (event.clientX - room.x)) / room.width);
  };
  return (
    <div
      class="divider"
      role="separator"
      aria-orientation="vertical"
      aria-label="Width of the file. Arrow keys move it."
      title="Wider or narrower (arrow keys); twice for the usual width"
      aria-valuemin={LEAST}
      aria-valuemax={MOST}
      aria-valuenow={fileWidth.value}
      aria-valuetext={`${fileWidth.value} per cent`}
      tabIndex={0}
      onPointerDown={(event) => event.currentTarget.setPointerCapture(event.pointerId)}
      onPointerMove={moved}
      onDblClick={() => byKey("Enter")}
      onKeyDown={(event) => byKey(event.key) && event.preventDefault()}
    />
  );
}

function byKey(key: string): boolean {
  const next = widthByKey(key, fileWidth.value);
  if (next !== null) setFileWidth(next);
  return next !== null;
}
