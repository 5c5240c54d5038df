/** The title block: whose house, which revision, in which units and words. */

import type { JSX } from "preact";
import type { Schemas } from "../api/client";
import { post } from "../api/client";
import { change, lastFailure } from "../state/reason";
import { addressOf } from "../state/route";
import { say } from "../state/say";
import { language, units } from "../state/ways";
import { showMoment } from "../units/moment";

type House = Schemas["HouseOut"];

export function TitleBlock({ house }: { house: House | null }): JSX.Element {
  return (
    <header class="block">
      <a class="home" href={addressOf(null, "houses")}>
        <img src="/seam.svg" alt="" width="32" height="32" />
        <span class="name">Seamwright</span>
        <span class="hidden-words">{say("block.home")}</span>
      </a>
      <div class="wide">
        {house !== null && (
          <>
            <span class="caption">{say("block.house")}</span>
            <span class="name">{house.name}</span>
          </>
        )}
      </div>
      {house !== null && <RevisionCell house={house} />}
      <div class="switch" role="group" aria-label={say("block.units")}>
        <button
          type="button"
          aria-pressed={units.value === "us"}
          aria-label={`ft-in, ${say("units.us")}`}
          onClick={() => {
            units.value = "us";
          }}
        >
          ft-in
        </button>
        <button
          type="button"
          aria-pressed={units.value === "metric"}
          aria-label={`m, ${say("units.metric")}`}
          onClick={() => {
            units.value = "metric";
          }}
        >
          m
        </button>
      </div>
      <div class="switch" role="group" aria-label={say("block.language")}>
        <button
          type="button"
          aria-pressed={language.value === "en"}
          lang="en"
          aria-label="EN, English"
          onClick={() => {
            language.value = "en";
          }}
        >
          EN
        </button>
        <button
          type="button"
          aria-pressed={language.value === "es"}
          lang="es"
          aria-label="ES, Español"
          onClick={() => {
            language.value = "es";
          }}
        >
          ES
        </button>
      </div>
    </header>
  );
}

function RevisionCell({ house }: { house: House }): JSX.Element {
  const step =
    (path: "/api/v1/houses/{house}/undo" | "/api/v1/houses/{house}/redo") => (): void => {
      change((reason) =>
        post(path, { path: { house: house.id }, body: { base: house.head, reason } }),
      ).catch((error: unknown) => {
        lastFailure.value = error;
      });
    };
  return (
    <div class="switch" role="group" aria-label={say("block.revision")}>
      <span class="slim-out">
        <span class="caption">{say("block.revision")} </span>
        <span class="figure">
          {house.head} · {showMoment(house.changed_at, language.value)}
        </span>
      </span>
      <span class="row">
        <button
          type="button"
          disabled={!house.can_undo}
          onClick={step("/api/v1/houses/{house}/undo")}
        >
          {say("block.undo")}
        </button>
        <button
          type="button"
          disabled={!house.can_redo}
          onClick={step("/api/v1/houses/{house}/redo")}
        >
          {say("block.redo")}
        </button>
      </span>
    </div>
  );
}
