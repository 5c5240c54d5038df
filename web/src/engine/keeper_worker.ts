/** The keeper of the view on a thread of its own, so that no work on the model holds up a hand. */

import { type Asked, Keeper } from "./keeper";

const keeper = new Keeper((answered) => postMessage(answered));
addEventListener("message", (event: MessageEvent<Asked>) => keeper.take(event.data));
