/** The frame of every page: title block, the seam of pages, the sheet, the foot. */

import { computed } from "@preact/signals";
import type { ComponentType, JSX } from "preact";
import { lazy, Suspense } from "preact/compat";
import type { Schemas } from "./api/client";
import { Houses } from "./pages/houses";
import { changeSentence } from "./parts/changes";
import { NextStep } from "./parts/next_step";
import { Failure, Waiting } from "./parts/notices";
import { ReasonQuestion } from "./parts/reason";
import { Seam } from "./parts/seam";
import { TitleBlock } from "./parts/title_block";
import { WorkStrip } from "./parts/work_strip";
import { useRead } from "./state/held";
import { lastChange, lastFailure } from "./state/reason";
import { addressOf, route } from "./state/route";
import { say } from "./state/say";
import { units } from "./state/ways";

export interface HousePage {
  readonly house: Schemas["HouseOut"];
  readonly item: string | null;
  readonly choices: URLSearchParams;
}

const page = (load: () => Promise<{ Page: ComponentType<HousePage> }>): ComponentType<HousePage> =>
  lazy(() => load().then((found) => ({ default: found.Page })));

const PAGES: Record<string, ComponentType<HousePage>> = {
  house: page(() => import("./pages/house")),
  model: page(() => import("./pages/model")),
  joints: page(() => import("./pages/joints")),
  joint: page(() => import("./pages/joint")),
  node: page(() => import("./pages/node")),
  sides: page(() => import("./pages/sides")),
  order: page(() => import("./pages/order")),
  days: page(() => import("./pages/days")),
  dryness: page(() => import("./pages/dryness")),
  air: page(() => import("./pages/air")),
  search: page(() => import("./pages/search")),
  papers: page(() => import("./pages/papers")),
  draw: page(() => import("./pages/redraw")),
  plan: page(() => import("./pages/plan")),
};

const NewHouse = lazy(() =>
  import("./pages/new_house").then((found) => ({ default: found.NewHouse })),
);

const houseId = computed(() => route.value.house);

export function Desk(): JSX.Element {
  const held = useRead(houseId.value === null ? null : "/api/v1/houses/{house}", {
    path: { house: houseId.value ?? "" },
    query: { units: units.value },
  });
  const house = houseId.value === null ? null : held.value;
  return (
    <>
      <button
        type="button"
        class="skip"
        onClick={() => {
          document.getElementById("main")?.focus();
        }}
      >
        {say("skip")}
      </button>
      <TitleBlock house={house} />
      {houseId.value !== null && <Seam houseId={houseId.value} house={house} />}
      <Told house={houseId.value} />
      {houseId.value !== null && <WorkStrip />}
      <ReasonQuestion />
      <Suspense fallback={<Waiting />}>
        <Body house={house} held={held} />
      </Suspense>
      <footer class="foot">
        <span>{say("foot")}</span>
        {house !== null && <NextStep house={house} page={route.value.page} />}
      </footer>
    </>
  );
}

/** What the last change did, until it is put away. */
function Told({ house }: { house: string | null }): JSX.Element | null {
  const [change, failure] = [lastChange.value, lastFailure.value];
  if (house === null || (change === null && failure === null)) return null;
  const away = (): void => {
    lastChange.value = null;
    lastFailure.value = null;
  };
  return (
    <div class="told" role="status">
      {failure !== null && <Failure error={failure} />}
      {change !== null && <span>{changeSentence(change)}</span>}
      <span class="row">
        {change?.after !== null && change?.after !== undefined && (
          <a
            class="button"
            href={addressOf(house, "house", "changes", {
              before: String(change.before),
              after: String(change.after),
            })}
          >
            {say("changes.see")}
          </a>
        )}
        <button type="button" onClick={away}>
          {say("changes.away")}
        </button>
      </span>
    </div>
  );
}

interface BodyProps {
  readonly house: Schemas["HouseOut"] | null;
  readonly held: { readonly error: unknown };
}

function Body({ house, held }: BodyProps): JSX.Element {
  const { page: name, item, choices } = route.value;
  if (houseId.value === null) return name === "new" ? <NewHouse /> : <Houses />;
  if (house === null) {
    return (
      <main id="main" class="sheet" tabIndex={-1}>
        {held.error === null ? <Waiting /> : <Failure error={held.error} />}
      </main>
    );
  }
  const Page = PAGES[name] ?? PAGES.house;
  return Page === undefined ? (
    <Houses />
  ) : (
    <Page key={`${house.id} ${name}`} house={house} item={item} choices={choices} />
  );
}
