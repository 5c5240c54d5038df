/** Every sort of joint at a glance: the margin of each face as it is usually made, against the limit. */

import type { JSX } from "preact";
import type { Schemas } from "../api/client";
import { say, term } from "../state/say";
import { marginWords } from "./dryness_type";

type Face = Schemas["FaceOptionOut"]["face"];
interface Row {
  readonly name: string;
  readonly marks: readonly (readonly [Face, number])[];
}

const FACES: readonly Face[] = ["inner", "outer", "both"];
const COLORS: Readonly<Record<Face, string>> = {
  inner: "#005a8f",
  outer: "#b34a00",
  both: "#101010",
};
/** Margins drawn, as parts of the limit; what lies beyond is drawn at the edge. */
const [LEAST, MOST] = [-1, 0.6];
const STEPS = [-1, -0.5, 0, 0.5];
const STEP = 30;

export function Glance({ types }: { types: readonly Schemas["DryTypeOut"][] }): JSX.Element | null {
  const rows = types.flatMap(rowsOf);
  if (rows.length === 0) return null;
  const high = rows.length * STEP + 34;
  return (
    <figure class="glance">
      <h2>{say("glance.title")}</h2>
      <ul class="plot-key">
        {FACES.filter((face) => rows.some(({ marks }) => marks.some(([one]) => one === face))).map(
          (face) => (
            <li key={face}>
              <svg width="18" height="18" viewBox="-9 -9 18 18" aria-hidden="true">
                <Mark face={face} x={0} y={0} />
              </svg>
              {say("dryness.sealed", { face: term("face", face) })}
            </li>
          ),
        )}
      </ul>
      <div class="glance-frame">
        <svg viewBox={`0 0 900 ${high}`} role="img" aria-label={say("glance.title")}>
          <rect x={at(LEAST)} y="0" width={at(0) - at(LEAST)} height={high - 24} class="beyond" />
          {STEPS.map((step) => (
            <g key={step}>
              <line
                x1={at(step)}
                x2={at(step)}
                y1="0"
                y2={high - 24}
                class={step === 0 ? "limit" : "hair"}
              />
              <text x={at(step)} y={high - 6} text-anchor="middle">
                {step === 0 ? say("glance.limit") : marginWords(step)}
              </text>
            </g>
          ))}
          {rows.map(({ name, marks }, k) => (
            <g key={name}>
              <text x="4" y={k * STEP + 21}>
                {name}
              </text>
              <line
                x1={at(LEAST)}
                x2={at(MOST)}
                y1={k * STEP + 16}
                y2={k * STEP + 16}
                class="row"
              />
              {marks.map(([face, margin]) => (
                <Mark key={face} face={face} x={at(margin)} y={k * STEP + 16}>
                  {`${name}, ${say("dryness.sealed", { face: term("face", face) })}: ${marginWords(margin)}`}
                </Mark>
              ))}
            </g>
          ))}
        </svg>
      </div>
      <figcaption>{say("glance.help")}</figcaption>
    </figure>
  );
}

interface MarkProps {
  readonly face: Face;
  readonly x: number;
  readonly y: number;
  readonly children?: string;
}

/** A mark of its own for each face, so that color is not needed to tell them apart. */
function Mark({ face, x, y, children }: MarkProps): JSX.Element {
  const told = children === undefined ? null : <title>{children}</title>;
  if (face === "inner")
    return (
      <circle cx={x} cy={y} r="7" fill={COLORS.inner}>
        {told}
      </circle>
    );
  if (face === "outer")
    return (
      <path d={`M${x - 7} ${y + 6}h14l-7 -13z`} fill={COLORS.outer}>
        {told}
      </path>
    );
  return (
    <rect
      x={x - 6}
      y={y - 6}
      width="12"
      height="12"
      fill="none"
      stroke={COLORS.both}
      stroke-width="3"
    >
      {told}
    </rect>
  );
}

/** Where a margin stands in the drawing. */
const at = (margin: number): number =>
  270 + (610 * (Math.min(Math.max(margin, LEAST), MOST) - LEAST)) / (MOST - LEAST);

function rowsOf(one: Schemas["DryTypeOut"]): readonly Row[] {
  return one.heights.map((height) => ({
    name: `${one.title}, ${term("height", height.height)}`,
    marks: height.options
      .filter((option) => option.places.length > 0)
      .map((option) => [option.face, Math.min(...option.places.map((p) => p.margin))] as const),
  }));
}
