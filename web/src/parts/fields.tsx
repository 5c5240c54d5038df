/** Fields with their names: words, lengths in the reader's units, choices. */

import { useSignal } from "@preact/signals";
import type { ComponentChildren, JSX } from "preact";
import { useId } from "preact/hooks";
import { say } from "../state/say";
import { units } from "../state/ways";
import { toNumber } from "../units/fraction";
import { parseLength } from "../units/parse";
import { showLength, showWidth } from "../units/show";

interface WordsProps {
  readonly name: string;
  readonly value: string;
  readonly onValue: (value: string) => void;
  readonly help?: string;
  readonly required?: boolean;
  readonly type?: "text" | "date" | "number" | "time";
  readonly list?: readonly string[];
}

export function WordsField(props: WordsProps): JSX.Element {
  const id = useId();
  return (
    <div class="field">
      <label for={id}>{props.name}</label>
      <input
        id={id}
        type={props.type ?? "text"}
        value={props.value}
        required={props.required ?? false}
        autocomplete="off"
        {...(props.list === undefined ? {} : { list: `${id}-list` })}
        {...(props.help === undefined ? {} : { "aria-describedby": `${id}-help` })}
        onInput={(event) => props.onValue(event.currentTarget.value)}
      />
      {props.list !== undefined && (
        <datalist id={`${id}-list`}>
          {props.list.map((one) => (
            <option key={one} value={one} />
          ))}
        </datalist>
      )}
      {props.help !== undefined && (
        <div class="help" id={`${id}-help`}>
          {props.help}
        </div>
      )}
    </div>
  );
}

interface LengthProps {
  readonly name: string;
  /** Metres, or null where nothing is told. */
  readonly value: number | null;
  readonly onValue: (metres: number | null) => void;
  readonly small?: boolean;
  readonly optional?: boolean;
}

/** A length as the trade writes it; taken when it can be read, told when it cannot. */
export function LengthField(props: LengthProps): JSX.Element {
  const id = useId();
  const show = props.small ? showWidth : showLength;
  const shown = props.value === null ? "" : show(props.value, units.value);
  const typed = useSignal<string | null>(null);
  const text = typed.value ?? shown;
  const bad =
    typed.value !== null && readLength(typed.value, props.optional === true) === undefined;
  return (
    <div class="field">
      <label for={id}>{props.name}</label>
      <input
        id={id}
        value={text}
        inputMode="text"
        autocomplete="off"
        aria-invalid={bad ? "true" : "false"}
        {...(bad ? { "aria-describedby": `${id}-bad` } : {})}
        onInput={(event) => {
          typed.value = event.currentTarget.value;
          const metres = readLength(typed.value, props.optional === true);
          if (metres !== undefined) props.onValue(metres);
        }}
        onBlur={() => {
          if (!bad) typed.value = null;
        }}
      />
      {bad && (
        <div class="help" id={`${id}-bad`} role="alert">
          {say(units.value === "us" ? "length.badUs" : "length.badMetric")}
        </div>
      )}
    </div>
  );
}

/** Metres, null for an empty optional field, undefined where the text is no length. */
function readLength(text: string, optional: boolean): number | null | undefined {
  if (text.trim() === "") return optional ? null : undefined;
  const read = parseLength(text, units.value);
  return read === null ? undefined : toNumber(read);
}

interface ChoiceProps<Value extends string> {
  readonly name: string;
  readonly value: Value;
  readonly choices: readonly (readonly [Value, string])[];
  readonly onValue: (value: Value) => void;
}

export function ChoiceField<Value extends string>(props: ChoiceProps<Value>): JSX.Element {
  const id = useId();
  return (
    <div class="field">
      <label for={id}>{props.name}</label>
      <select
        id={id}
        value={props.value}
        onChange={(event) => props.onValue(event.currentTarget.value as Value)}
      >
        {props.choices.map(([value, words]) => (
          <option key={value} value={value} selected={value === props.value}>
            {words}
          </option>
        ))}
      </select>
    </div>
  );
}

interface CheckProps {
  readonly checked: boolean;
  readonly onChange: (checked: boolean) => void;
  readonly children: ComponentChildren;
}

export function Check({ checked, onChange, children }: CheckProps): JSX.Element {
  return (
    <label class="check">
      <input
        type="checkbox"
        checked={checked}
        onChange={(event) => onChange(event.currentTarget.checked)}
      />
      <span>{children}</span>
    </label>
  );
}
