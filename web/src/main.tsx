/** Start the desk. */

import { render } from "preact";
import { Desk } from "./desk";
import "./styles/desk.css";
import "./styles/table.css";
import "./styles/model.css";
import "./styles/drawing.css";
import "./styles/work.css";

const place = document.getElementById("desk");
if (place !== null) render(<Desk />, place);

/** Pages built anew while this one stood open: load it again, once, instead of showing nothing. */
globalThis.addEventListener("vite:preloadError", (event) => {
  const last = Number(sessionStorage.getItem("seamwright.reloaded") ?? 0);
  if (Date.now() - last < 10_000) return;
  event.preventDefault();
  sessionStorage.setItem("seamwright.reloaded", String(Date.now()));
  location.reload();
});
