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
