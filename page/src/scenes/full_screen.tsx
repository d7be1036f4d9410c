// One thing as large as the screen.     (scenes/full_screen.tsx)
import type { RefObject } from "preact";
import { useEffect, useState } from "preact/hooks";

export function FullScreen({ box }: { box: RefObject<HTMLElement> }) {
  const [full, set] = useState(false);
  useEffect(() => {
    const look = () => set(document.fullscreenElement !== null && document.fullscreenElement === box.current);
    document.addEventListener("fullscreenchange", look);
    return () => document.removeEventListener("fullscreenchange", look);
  }, []);
  if (!document.fullscreenEnabled) return null;
  const turn = () => void (full ? document.exitFullscreen() : box.current?.requestFullscreen());
  return (
    <button type="button" class="button" aria-pressed={full} onClick={turn}>
      {full ? "Leave full screen" : "Full screen"}
    </button>
  );
}
