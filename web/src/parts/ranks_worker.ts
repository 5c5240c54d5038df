/** Puts words in order where no page waits for it. */

import { placesOf } from "./ranks";

addEventListener("message", (event: MessageEvent<readonly (string | null)[]>) => {
  const places = placesOf(event.data);
  postMessage(places, { transfer: [places.buffer] });
});
