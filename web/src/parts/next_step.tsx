/** What usually comes next, by what is open about the house: one link at the foot of a page. */

import type { JSX } from "preact";
import type { Schemas } from "../api/client";
import { addressOf } from "../state/route";
import { count, say } from "../state/say";

type House = Schemas["HouseOut"];
type Step = readonly [page: string, words: string];

export function NextStep({ house, page }: { house: House; page: string }): JSX.Element | null {
  const step = stepAfter(house, page);
  if (step === null) return null;
  const [to, words] = step;
  return (
    <a class="next" href={addressOf(house.id, to)}>
      {say("next", { what: words })}
    </a>
  );
}

function stepAfter({ counted }: House, page: string): Step | null {
  const order: Step = ["order", say("next.order")];
  const sides: Step = ["sides", count("next.sidesOne", "next.sides", counted.unsigned)];
  switch (page) {
    case "model":
    case "joints":
    case "joint":
    case "node":
    case "house":
    case "draw":
    case "plan":
      if (counted.stops > 0 && page !== "house")
        return ["house", count("next.stopsOne", "next.stops", counted.stops)];
      return counted.unsigned > 0 ? sides : order;
    case "sides":
      return counted.unsigned > 0 ? null : order;
    case "order":
      return ["days", say("next.days")];
    case "days":
      return ["papers", say("next.papers")];
    case "dryness":
      return counted.unsigned > 0 ? sides : ["air", say("next.air")];
    case "air":
      return ["search", say("next.search")];
    default:
      return null;
  }
}
