/** The fields of the drawing: outlines, storeys, roof. */

import type { JSX } from "preact";
import {
  extent,
  type Footprint,
  type HouseForm,
  wallsOf,
  withOutline,
  withoutFootprint,
  withWing,
} from "../draft/form";
import {
  counterClockwise,
  facing,
  moved,
  sidesOf,
  withCornerIn,
  withoutCorner,
  withSideLength,
} from "../draft/outline";
import { ChoiceField, LengthField } from "../parts/fields";
import { say, term } from "../state/say";
import { units } from "../state/ways";

export interface PartProps {
  readonly form: HouseForm;
  readonly onForm: (form: HouseForm, about?: string) => void;
}

interface OutlineProps extends PartProps {
  readonly current: number;
  readonly grid: number;
  readonly onCurrent: (index: number) => void;
}

export function Outlines({ form, onForm, current, grid, onCurrent }: OutlineProps): JSX.Element {
  return (
    <>
      {form.footprints.map((one, k) => (
        <fieldset key={one.id}>
          <legend>{say("draw.outline", { name: one.id })}</legend>
          {k === current ? (
            <Sides form={form} onForm={onForm} index={k} one={one} grid={grid} />
          ) : (
            <button type="button" onClick={() => onCurrent(k)}>
              {say("draw.openOutline", { name: one.id })}
            </button>
          )}
        </fieldset>
      ))}
      <button
        type="button"
        onClick={() => {
          onForm(withWing(form, units.value === "us"));
          onCurrent(form.footprints.length);
        }}
      >
        {say("draw.addWing")}
      </button>
    </>
  );
}

interface SidesProps extends PartProps {
  readonly index: number;
  readonly one: Footprint;
  readonly grid: number;
}

/** Every side with its length to type; what lies beyond its end moves along. */
function Sides({ form, onForm, index, one, grid }: SidesProps): JSX.Element {
  const outline = one.corners_m;
  const letters = wallsOf(form)
    .filter((wall) => wall.footprint === index)
    .map((wall) => wall.letter);
  const [low] = extent(outline);
  const change = (next: Parameters<typeof withOutline>[2], about = ""): void =>
    onForm(withOutline(form, index, counterClockwise(next)), about);
  return (
    <>
      <div class="fields">
        {sidesOf(outline).map((side, k) => (
          <div key={`${one.id} ${outline.length} ${k}`}>
            <LengthField
              name={say("draw.side", {
                wall: letters[k] ?? "",
                facing: term("compass", facing(side)),
              })}
              value={side.length}
              onValue={(metres) => {
                if (metres !== null && metres > 0)
                  change(withSideLength(outline, k, metres), `length ${index} ${k}`);
              }}
            />
          </div>
        ))}
      </div>
      <div class="fields">
        <LengthField
          name={say("draw.west")}
          value={low[0]}
          onValue={(x) => x !== null && change(moved(outline, [x - low[0], 0]), "x")}
        />
        <LengthField
          name={say("draw.south")}
          value={low[1]}
          onValue={(y) => y !== null && change(moved(outline, [0, y - low[1]]), "y")}
        />
        {form.storeys.length > 1 && (
          <ChoiceField
            name={say("draw.rises")}
            value={String(one.storeys ?? form.storeys.length)}
            choices={form.storeys.map((_, n) => [String(n + 1), String(n + 1)] as const)}
            onValue={(n) => {
              const footprints = form.footprints.map((each, k) =>
                k === index ? { ...each, storeys: Number(n) } : each,
              );
              onForm({ ...form, footprints });
            }}
          />
        )}
      </div>
      <div class="row">
        <button type="button" onClick={() => change(withCornerIn(outline, longest(outline), grid))}>
          {say("draw.addCorner")}
        </button>
        <button
          type="button"
          disabled={outline.length <= 3}
          onClick={() => change(withoutCorner(outline, outline.length - 1))}
        >
          {say("draw.dropCorner")}
        </button>
        {form.footprints.length > 1 && (
          <button type="button" onClick={() => onForm(withoutFootprint(form, index))}>
            {say("draw.dropOutline", { name: one.id })}
          </button>
        )}
      </div>
    </>
  );
}

function longest(outline: Footprint["corners_m"]): number {
  const lengths = sidesOf(outline).map((side) => side.length);
  return lengths.indexOf(Math.max(...lengths));
}

export function Storeys({ form, onForm }: PartProps): JSX.Element {
  const change = (n: number, part: Partial<HouseForm["storeys"][number]>): void =>
    onForm(
      { ...form, storeys: form.storeys.map((one, k) => (k === n ? { ...one, ...part } : one)) },
      `storey ${n} ${Object.keys(part)}`,
    );
  const last = form.storeys.at(-1);
  return (
    <>
      {form.storeys.map((storey, n) => (
        <fieldset key={n}>
          <legend>{say("draw.storey", { n: n + 1 })}</legend>
          <div class="fields">
            <LengthField
              name={say("draw.height")}
              value={storey.height_m}
              onValue={(m) => m !== null && change(n, { height_m: m })}
            />
            {n > 0 && (
              <>
                <ChoiceField
                  name={say("draw.floor")}
                  value={storey.floor ?? "platform"}
                  choices={(["platform", "hanging"] as const).map(
                    (one) => [one, term("floor", one)] as const,
                  )}
                  onValue={(floor) => change(n, { floor })}
                />
                <LengthField
                  small
                  name={say("draw.floorDepth")}
                  value={storey.floor_depth_m ?? null}
                  onValue={(m) => m !== null && change(n, { floor_depth_m: m })}
                />
                <LengthField
                  small
                  name={say("draw.deck")}
                  value={storey.deck_m ?? null}
                  onValue={(m) => m !== null && change(n, { deck_m: m })}
                />
              </>
            )}
          </div>
        </fieldset>
      ))}
      <div class="row">
        <button
          type="button"
          disabled={form.storeys.length >= 3}
          onClick={() => {
            if (last !== undefined) onForm({ ...form, storeys: [...form.storeys, last] });
          }}
        >
          {say("draw.addStorey")}
        </button>
        <button
          type="button"
          disabled={form.storeys.length < 2}
          onClick={() => onForm(lower(form))}
        >
          {say("draw.dropStorey")}
        </button>
      </div>
    </>
  );
}

/** One storey less; outlines and openings upstairs come down or go. */
function lower(form: HouseForm): HouseForm {
  const top = form.storeys.length;
  return {
    ...form,
    storeys: form.storeys.slice(0, -1),
    footprints: form.footprints.map((one) => ({
      ...one,
      storeys:
        one.storeys === null || one.storeys === undefined ? null : Math.min(one.storeys, top - 1),
    })),
    openings: (form.openings ?? []).filter((one) => !one.host.startsWith(String(top)) || top === 1),
  };
}
