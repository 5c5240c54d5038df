/** The arithmetic of each strip's width, as a sum anyone can check. */

import type { JSX } from "preact";
import type { Schemas } from "../api/client";
import { Framed } from "../parts/notices";
import { say, term } from "../state/say";
import { units } from "../state/ways";
import { showLength, showWidth } from "../units/show";

type Strip = Schemas["StripOut"];

export function Strips({ strips }: { strips: readonly Strip[] }): JSX.Element {
  return (
    <section>
      <h2>{say("width.title")}</h2>
      {strips.length === 0 && <p>{say("width.none")}</p>}
      <div class="sums">
        {strips.map((strip) => (
          <Sum key={strip.id} strip={strip} />
        ))}
      </div>
    </section>
  );
}

function Sum({ strip }: { strip: Strip }): JSX.Element {
  const width = (metres: number): string => showWidth(metres, units.value);
  const enough = strip.width_m !== null && strip.width_m >= strip.required_m - 1e-9;
  return (
    <table class="sum">
      <caption>
        {term("face", strip.face)}: {showLength(strip.length_m, units.value)},{" "}
        {term("stage", strip.stage)}
        {!strip.primary && ` · ${say("width.second")}`}
        {strip.fold && ` · ${say("width.fold")}`}
        {strip.wings_open && ` · ${say("width.wings")}`}
      </caption>
      <tbody>
        {strip.terms.map((part) => (
          <tr key={part.label}>
            <th scope="row">
              {term("sum", part.label)}
              {part.count !== 1 && ` (${part.count} × ${width(part.value_m)})`}
            </th>
            <td class="number">{width(part.count * part.value_m)}</td>
          </tr>
        ))}
        <tr class="total">
          <th scope="row">{say("width.needed")}</th>
          <td class="number">{width(strip.required_m)}</td>
        </tr>
        <tr>
          <th scope="row">
            {strip.stock === null ? (
              <Framed word={say("width.noStock")} kind="stop" />
            ) : (
              say("width.stock", { name: strip.stock })
            )}
          </th>
          <td class="number">
            {strip.width_m === null ? "–" : `${enough ? "≥" : "<"} ${width(strip.width_m)}`}
          </td>
        </tr>
        <tr>
          <th scope="row">{say("width.lap")}</th>
          <td class="number">{width(strip.lap_m)}</td>
        </tr>
      </tbody>
    </table>
  );
}
