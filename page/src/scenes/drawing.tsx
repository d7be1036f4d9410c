// A drawing of the server's that stands still, as wide as there is room.     (scenes/drawing.tsx)
import "./drawing.css";
import { useLayoutEffect, useRef } from "preact/hooks";
import { contentOf } from "../line/svg";

/** What part of its plane a drawing shows, as its root says; the whole page would be wrong, so nothing is taken for it. */
export function viewBoxOf(svg: string): string {
  return /viewBox="([-0-9. ]+)"/.exec(svg)?.[1] ?? "0 0 100 100";
}

export function Drawing({ svg, label }: { svg: string; label: string }) {
  const group = useRef<SVGGElement>(null);
  useLayoutEffect(() => group.current?.replaceChildren(contentOf(svg)), [svg]);
  return (
    <svg class="drawing still" role="img" aria-label={label} viewBox={viewBoxOf(svg)}>
      <g ref={group} />
    </svg>
  );
}
