/** Air: the forecast of the fan test before anybody tests, and the test worked out when it is done. */

import type { JSX } from "preact";
import type { HousePage } from "../desk";
import { Sheet } from "../parts/sheet";
import { say } from "../state/say";
import { FanTest } from "./air_fan";
import { Forecast } from "./air_forecast";

export function Page({ house }: HousePage): JSX.Element {
  return (
    <Sheet title={say("air.title")} house={house.name}>
      <p>{say("air.lead")}</p>
      <Forecast house={house.id} />
      <FanTest house={house.id} name={house.name} />
    </Sheet>
  );
}
