// The desk: what is open in which room.     (app.tsx)
import { lazy } from "./lazy";
import { room } from "./store";

const Proposals = lazy(async () => (await import("./proposals/proposals")).Proposals);
const Papers = lazy(async () => (await import("./papers/papers")).Papers);
const Scenes = lazy(async () => (await import("./scenes/scenes")).Scenes);
const Space = lazy(async () => (await import("./space/space")).Space);

export function App() {
  if (room.value === "proposals") return <Proposals />;
  if (room.value === "papers") return <Papers />;
  if (room.value === "scenes") return <Scenes />;
  return <Space />;
}
