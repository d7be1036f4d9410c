// Where the page begins.     (main.tsx)
import "./style.css";
import "./shell/shell.css";
import "./line/room.css";
import "./line/picture.css";
import "./why/why.css";
import "./track/track.css";
import "./shell/last.css";
import { render } from "preact";
import { App } from "./app";
import { startLooking } from "./looks";
import { startKeys } from "./shell/keys";
import { start } from "./store";
import { startTheme } from "./theme";
import { startPlaying } from "./track/playing";

const place = document.getElementById("desk");
if (place === null) throw new Error("the page has no place for the desk");
startTheme();
startLooking();
startPlaying();
startKeys();
start();
render(<App />, place);
