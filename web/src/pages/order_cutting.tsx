/** From which roll each piece is cut: every roll drawn as a bar, and the pieces as a table. */

import { useSignal } from "@preact/signals";
import type { JSX } from "preact";
import type { Schemas } from "../api/client";
import { Table } from "../parts/table";
import { addressOf } from "../state/route";
import { say, term } from "../state/say";
import { units } from "../state/ways";
import { showLength } from "../units/show";

type Order = Schemas["OrderOut"];
type Cutting = Order["cutting"][number];

export function Cutting({ house, order }: { house: string; order: Order }): JSX.Element {
  const lengths = new Map(order.pieces.map((piece) => [piece.id, piece.length_m]));
  return (
    <>
      <h2>{say("cutting.title")}</h2>
      <p>{say("cutting.lead")}</p>
      {order.cutting.map((one) => (
        <Stock key={one.stock} cutting={one} lengths={lengths} />
      ))}
      <Table
        title={say("cutting.pieces")}
        rows={order.pieces}
        keyOf={(piece) => piece.id}
        file="pieces"
        selectable
        columns={[
          {
            key: "id",
            head: say("cutting.piece"),
            exported: "piece",
            id: true,
            value: (piece) => piece.id,
          },
          {
            key: "stock",
            head: say("cutting.stock"),
            exported: "stock",
            value: (piece) => piece.stock,
          },
          {
            key: "length",
            head: say("joints.length"),
            exported: "length_m",
            number: true,
            value: (piece) => piece.length_m,
            cell: (piece) => showLength(piece.length_m, units.value),
          },
          {
            key: "purpose",
            head: say("cutting.purpose"),
            exported: "purpose",
            value: (piece) => term("piece", piece.purpose),
          },
          {
            key: "for",
            head: say("order.for"),
            exported: "for",
            value: (piece) => piece.refs.join(", "),
            cell: (piece) => <Refs house={house} refs={piece.refs} />,
          },
        ]}
      />
    </>
  );
}

/** Joints named for a piece; a long strip is for hundreds of them. */
const NAMED = 4;

function Refs({ house, refs }: { house: string; refs: readonly string[] }): JSX.Element {
  const more = refs.length - NAMED;
  return (
    <>
      {refs.slice(0, NAMED).map((ref, k) => (
        <>
          {k > 0 && ", "}
          <a class="figure" href={addressOf(house, ref.startsWith("N-") ? "node" : "joint", ref)}>
            {ref}
          </a>
        </>
      ))}
      {more > 0 && <> {say("changes.more", { n: more })}</>}
    </>
  );
}

const WIDE = 1000;
const BAR = 30;
/** Rolls drawn before somebody asks for the rest. */
const FEW = 12;

function Stock({
  cutting,
  lengths,
}: {
  cutting: Cutting;
  lengths: ReadonlyMap<string, number>;
}): JSX.Element {
  const all = useSignal(cutting.cuts.length <= FEW);
  const cuts = all.value ? cutting.cuts : cutting.cuts.slice(0, FEW);
  return (
    <section>
      <h3>
        {cutting.stock}:{" "}
        {say(cutting.optimal ? "cutting.proven" : "cutting.bound", {
          rolls: cutting.rolls,
          bound: cutting.bound_rolls,
          length: showLength(cutting.roll_length_m, units.value),
        })}
      </h3>
      <ol class="rolls">
        {cuts.map((cut) => {
          let at = 0;
          const parts = cut.pieces.map((piece) => {
            const length = lengths.get(piece) ?? 0;
            const start = at;
            at += length;
            return {
              piece,
              start: (start / cutting.roll_length_m) * WIDE,
              wide: (length / cutting.roll_length_m) * WIDE,
              length,
            };
          });
          const words = parts
            .map((part) => `${part.piece} ${showLength(part.length, units.value)}`)
            .join("; ");
          return (
            <li key={cut.roll}>
              <span class="figure">
                {say("cutting.roll", { n: cut.roll, left: showLength(cut.left_m, units.value) })}
              </span>
              <svg
                viewBox={`0 0 ${WIDE} ${BAR}`}
                preserveAspectRatio="none"
                role="img"
                aria-label={words}
              >
                <rect class="roll" x="0" y="1" width={WIDE} height={BAR - 2} />
                {parts.map((part) => (
                  <rect
                    key={part.piece}
                    class="piece"
                    x={part.start}
                    y="1"
                    width={part.wide}
                    height={BAR - 2}
                  >
                    <title>{`${part.piece} · ${showLength(part.length, units.value)}`}</title>
                  </rect>
                ))}
              </svg>
            </li>
          );
        })}
      </ol>
      {!all.value && (
        <button
          type="button"
          onClick={() => {
            all.value = true;
          }}
        >
          {say("cutting.more", { n: cutting.cuts.length - FEW })}
        </button>
      )}
    </section>
  );
}
