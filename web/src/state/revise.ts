/** Keep what was written on top of a revision as the next one. */

import { post, remove, type Schemas } from "../api/client";
import { changed } from "./held";
import { change } from "./reason";
import { person, units } from "./ways";

/** Keep `source` as a revision of the house and drop its draft; false when it was given up. */
export async function revise(
  house: Schemas["HouseOut"],
  source: Schemas["DraftIn"]["source"],
  note: string,
): Promise<boolean> {
  const path = { house: house.id };
  const body = { base: house.head, source, author: person.value, note };
  const done = await change((reason) =>
    post("/api/v1/houses/{house}/revisions", {
      path,
      query: { units: units.value },
      body: { ...body, reason },
    }),
  );
  if (!done) return false;
  await remove("/api/v1/houses/{house}/draft", { path }).catch(() => undefined);
  changed();
  return true;
}
