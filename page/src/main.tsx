// Where the page begins.     (main.tsx)
import "./style.css";
import { render } from "preact";
import { App } from "./app";
import { startLooking } from "./looks";
import { start } from "./store";
import { startTheme } from "./theme";

const place = document.getElementById("desk");
if (place === null) throw new Error("the page has no place for the desk");
startTheme();
startLooking();
start();
render(<App />, place);
