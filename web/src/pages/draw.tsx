/** Drawing a house: the ground on squared paper, the rest in fields, the verdict beneath. */

import { type Signal, useSignal } from "@preact/signals";
import type { ComponentChildren, JSX } from "preact";
import { useEffect } from "preact/hooks";
import type { Schemas } from "../api/client";
import type { HouseForm } from "../draft/form";
import { type History, redo, step, undo } from "../draft/history";
import { ChoiceField } from "../parts/fields";
import { say, type WordKey } from "../state/say";
import { units } from "../state/ways";
import { showWidth } from "../units/show";
import { Build, Place } from "./draw_build";
import { Ground } from "./draw_ground";
import { Openings, Services } from "./draw_openings";
import { Outlines, Storeys } from "./draw_parts";
import { RoofParts } from "./draw_roof";
import { Verdict } from "./draw_verdict";

const FOOT = 0.3048;
const STEPS = {
  us: [FOOT / 2, FOOT, 2 * FOOT, 4 * FOOT],
  metric: [0.05, 0.1, 0.5, 1.2],
} as const;

interface Props {
  readonly history: Signal<History<HouseForm>>;
  readonly onVerdict: (verdict: Schemas["Validated"] | null) => void;
  readonly children: ComponentChildren;
}

export function Drawing({ history, onVerdict, children }: Props): JSX.Element {
  const steps = STEPS[units.value];
  const grid = useSignal<number>(1);
  const current = useSignal(0);
  const form = history.value.now;
  const size = steps[grid.value] ?? steps[1];
  const change = (next: HouseForm, about = ""): void => {
    history.value = step(history.value, next, about);
  };
  useEffect(() => {
    const key = (event: KeyboardEvent): void => {
      if (!(event.ctrlKey || event.metaKey) || isWriting(event.target)) return;
      const back = event.key.toLowerCase() === "z" && !event.shiftKey;
      const on =
        event.key.toLowerCase() === "y" || (event.key.toLowerCase() === "z" && event.shiftKey);
      if (!back && !on) return;
      event.preventDefault();
      history.value = back ? undo(history.value) : redo(history.value);
    };
    addEventListener("keydown", key);
    return () => removeEventListener("keydown", key);
  }, []);
  return (
    <div class="drawing">
      <div class="paper">
        <div class="row ends">
          <div class="row">
            <button
              type="button"
              disabled={history.value.past.length === 0}
              onClick={() => {
                history.value = undo(history.value);
              }}
            >
              {say("draw.undo")}
            </button>
            <button
              type="button"
              disabled={history.value.future.length === 0}
              onClick={() => {
                history.value = redo(history.value);
              }}
            >
              {say("draw.redo")}
            </button>
          </div>
          <ChoiceField
            name={say("draw.grid")}
            value={String(grid.value)}
            choices={steps.map((one, k) => [String(k), showWidth(one, units.value)] as const)}
            onValue={(k) => {
              grid.value = Number(k);
            }}
          />
        </div>
        <Ground
          form={form}
          grid={size}
          current={current.value}
          onForm={change}
          onCurrent={(k) => {
            current.value = k;
          }}
        />
        <Verdict source={{ kind: "form", form }} onVerdict={onVerdict} />
        <p class="soft">{say("ground.help")}</p>
      </div>
      <div>
        <Section word="draw.partOutlines" open>
          <Outlines
            form={form}
            onForm={change}
            current={current.value}
            grid={size}
            onCurrent={(k) => {
              current.value = k;
            }}
          />
        </Section>
        <Section word="draw.partStoreys" open>
          <Storeys form={form} onForm={change} />
        </Section>
        <Section word="draw.partRoof" open>
          <RoofParts form={form} onForm={change} />
        </Section>
        <Section word="draw.partOpenings" open>
          <Openings form={form} onForm={change} />
        </Section>
        <Section word="draw.partServices">
          <Services form={form} onForm={change} />
        </Section>
        <Section word="draw.partBuild">
          <Build form={form} onForm={change} />
        </Section>
        <Section word="draw.partPlace" open>
          <Place form={form} onForm={change} />
        </Section>
        {children}
      </div>
    </div>
  );
}

function Section({
  word,
  open,
  children,
}: {
  word: WordKey;
  open?: boolean;
  children: ComponentChildren;
}): JSX.Element {
  return (
    <details open={open ?? false}>
      <summary>{say(word)}</summary>
      {children}
    </details>
  );
}

function isWriting(target: EventTarget | null): boolean {
  return target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement;
}
