/** The records file of a site brought to the search; and a fan test carried into its diary. */

import { type Signal, useSignal } from "@preact/signals";
import type { JSX } from "preact";
import { post, type Schemas } from "../api/client";
import { DropBox } from "../parts/drop_box";
import { Failure, Notice } from "../parts/notices";
import { changed, useRead } from "../state/held";
import { count, say } from "../state/say";
import { person, units } from "../state/ways";
import { jobs, standingOf } from "../state/work";
import { showHourly } from "../units/flow";
import { type Diary, fanEntry, isTest, keepDiary, withSiteFile } from "./search_diary";

interface Props {
  readonly house: string;
  readonly diary: Signal<Diary>;
}

/** Drop the file the site kept: its joints are recorded, its diary joins this one. */
export function SiteFile({ house, diary }: Props): JSX.Element {
  const found = useSignal<Schemas["SiteFileOut"] | null>(null);
  const failure = useSignal<unknown>(null);
  const take = async ([file]: readonly File[]): Promise<void> => {
    if (file === undefined) return;
    found.value = null;
    failure.value = null;
    try {
      const body = {
        name: file.name,
        text: await file.text(),
        person: person.value.trim() === "" ? file.name : person.value.trim(),
      };
      found.value = await post("/api/v1/houses/{house}/records/file", { path: { house }, body });
      keepDiary(house, diary, withSiteFile(diary.value, found.value));
      changed();
    } catch (error) {
      failure.value = error;
    }
  };
  return (
    <>
      <DropBox
        name={say("site.name")}
        lead={say("site.lead")}
        choose={say("site.choose")}
        accept=".yaml,.yml"
        onFiles={(files) => void take(files)}
      />
      {failure.value !== null && <Failure error={failure.value} />}
      {found.value !== null && (
        <div class="notice" role="status">
          <p>
            {say("site.took", {
              entries: found.value.diary.length,
              n: found.value.recorded,
              known: found.value.known,
            })}
          </p>
          {found.value.notes.length > 0 && (
            <ul>
              {found.value.notes.map((note) => (
                <li key={note}>{note}</li>
              ))}
            </ul>
          )}
        </div>
      )}
    </>
  );
}

/** The newest fan test worked out here, while the diary does not hold it. */
export function FanToDiary({ house, diary }: Props): JSX.Element | null {
  const job = jobs.value === null ? null : standingOf(jobs.value, "fan").done;
  const held = useRead(job === null ? null : "/api/v1/jobs/{job}/fan", {
    path: { job: job?.id ?? "" },
  });
  if (job === null || held.value === null) return null;
  const entry = fanEntry(job, held.value);
  if (diary.value.log.some((one) => isTest(one) && one.test === entry.test)) return null;
  const { value_m3_h, low_m3_h, high_m3_h } = held.value.flow_50;
  return (
    <Notice>
      <p>
        {say("site.fan", {
          day: entry.day ?? "",
          value: showHourly(value_m3_h, units.value),
          low: showHourly(low_m3_h, units.value),
          high: showHourly(high_m3_h, units.value),
        })}
      </p>
      <button
        type="button"
        onClick={() =>
          keepDiary(house, diary, { ...diary.value, log: [...diary.value.log, entry] })
        }
      >
        {say("site.fanGo")}
      </button>
    </Notice>
  );
}

/** How much the diary holds, in words. */
export const diaryWords = (n: number): string => count("search.diaryOne", "search.diary", n);
