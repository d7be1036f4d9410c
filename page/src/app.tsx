// The desk: its bar, what must be known, and the room one is in.     (app.tsx)
import { lazy } from "./lazy";
import { LineRoom } from "./line/room";
import { Asking } from "./shell/asking";
import { Bar } from "./shell/bar";
import { Notices } from "./shell/notices";
import { room } from "./store";

const Proposals = lazy(async () => (await import("./proposals/proposals")).Proposals);
const Papers = lazy(async () => (await import("./papers/papers")).Papers);
const Scenes = lazy(async () => (await import("./scenes/scenes")).Scenes);

export function App() {
  return (
    <div class="desk">
      <Bar />
      <Notices />
      <Room />
      <Asking />
    </div>
  );
}

function Room() {
  if (room.value === "line") return <LineRoom />;
  return (
    <main class="other-room">
      {room.value === "proposals" && <Proposals />}
      {room.value === "papers" && <Papers />}
      {room.value === "scenes" && <Scenes />}
    </main>
  );
}
