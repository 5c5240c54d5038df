/** The seam: the pages of a house along one line, each with its mark and what is open there. */

import type { JSX } from "preact";
import { useEffect, useRef } from "preact/hooks";
import type { Schemas } from "../api/client";
import { addressOf, route } from "../state/route";
import { say, type WordKey } from "../state/say";
import { type Mark, MarkSign } from "./marks";

type House = Schemas["HouseOut"];

interface Place {
  readonly page: string;
  readonly mark: Mark;
  readonly name: WordKey;
  readonly also?: readonly string[];
  readonly tally?: (house: House) => string;
}

const PLACES: readonly Place[] = [
  {
    page: "house",
    mark: "square",
    name: "seam.house",
    also: ["draw", "plan"],
    tally: (house) => looks(house),
  },
  { page: "model", mark: "delta", name: "seam.model" },
  {
    page: "joints",
    mark: "tee",
    name: "seam.joints",
    also: ["joint", "node"],
    tally: (h) => String(h.counted.joints),
  },
  { page: "sides", mark: "bars", name: "seam.sides", tally: (house) => unsigned(house) },
  { page: "order", mark: "ring", name: "seam.order" },
  { page: "days", mark: "lozenge", name: "seam.days" },
  { page: "dryness", mark: "vee", name: "seam.dryness" },
  { page: "air", mark: "plus", name: "seam.air" },
  { page: "search", mark: "star", name: "seam.search" },
  { page: "papers", mark: "box", name: "seam.papers" },
];

const looks = (house: House): string =>
  house.counted.stops > 0 ? say("seam.stops", { n: house.counted.stops }) : "";

const unsigned = (house: House): string =>
  house.counted.unsigned > 0
    ? say("seam.unsigned", { n: house.counted.unsigned })
    : say("seam.allSigned");

export function Seam({ houseId, house }: { houseId: string; house: House | null }): JSX.Element {
  const frame = useRef<HTMLElement>(null);
  const here = route.value.page;
  useEffect(() => {
    const current = frame.current?.querySelector<HTMLElement>("[aria-current]");
    if (current === null || current === undefined || frame.current === null) return;
    frame.current.scrollLeft =
      current.offsetLeft - (frame.current.clientWidth - current.offsetWidth) / 2;
  }, [here]);
  return (
    <nav class="seam" ref={frame} aria-label={say("seam.name")}>
      <ol>
        {PLACES.map((place) => {
          const current = place.page === here || place.also?.includes(here) === true;
          const tally = house === null ? "" : (place.tally?.(house) ?? "");
          return (
            <li key={place.page}>
              <a href={addressOf(houseId, place.page)} aria-current={current ? "page" : undefined}>
                <MarkSign mark={place.mark} full={current} />
                <span>{say(place.name)}</span>
                {tally !== "" && <span class="tally">{tally}</span>}
              </a>
            </li>
          );
        })}
      </ol>
    </nav>
  );
}
