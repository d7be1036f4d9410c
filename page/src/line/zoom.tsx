// Nearer, farther, all of it.     (line/zoom.tsx)
import { Icon } from "../shell/icon";

export function ZoomButtons(props: { nearer: () => void; farther: () => void; fit: () => void }) {
  return (
    <div class="zoom" role="group" aria-label="Zoom">
      <Icon name="plus" title="Nearer (+)" press={props.nearer} />
      <Icon name="minus" title="Farther (-)" press={props.farther} />
      <Icon name="fit" title="The whole drawing (0)" press={props.fit} />
    </div>
  );
}
