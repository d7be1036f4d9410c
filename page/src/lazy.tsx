// A room that is fetched when it is first entered.     (lazy.tsx)
import type { ComponentType } from "preact";
import { useEffect, useState } from "preact/hooks";

type State = { room: ComponentType } | "coming" | "failed";

/** A component that stands in for another one until that has come. */
export function lazy(fetchRoom: () => Promise<ComponentType>): ComponentType {
  return function Lazy() {
    const [state, set] = useState<State>("coming");
    useEffect(() => {
      fetchRoom().then(
        (room) => set({ room }),
        () => set("failed"),
      );
    }, []);
    if (state === "coming") return <p class="quiet pad">One moment …</p>;
    if (state === "failed") return <p class="pad">This part did not come. Load the page anew.</p>;
    return <state.room />;
  };
}
