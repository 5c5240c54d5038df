/** The run of days as a tape that is folded where the page ends: days across, crews down. */

import type { JSX } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import type { Schemas } from "../api/client";
import { say, term, type WordKey } from "../state/say";
import { language } from "../state/ways";
import { showDay } from "../units/moment";
import { lanesOn, SORTS, type Sort, type Task, workDays } from "./days_sorts";

type Days = Schemas["DaysOut"];

interface Props {
  readonly days: Days;
  readonly chosen: string;
  readonly onChoose: (day: string) => void;
}

const DAY = 108;
const LANE = 11;
const CREW = 30;

/** The hours that are drawn: from the first to the last at which anybody works. */
function hours(tasks: readonly Task[]): readonly [number, number] {
  const at = tasks
    .filter((task) => task.crew !== "")
    .flatMap((task) => [Number(task.start.slice(11, 13)), Number(task.end.slice(11, 13)) + 1]);
  return at.length === 0 ? [7, 16] : [Math.min(...at), Math.max(...at)];
}

export function DaysTape({ days, chosen, onChoose }: Props): JSX.Element {
  const frame = useRef<HTMLDivElement>(null);
  const [wide, setWide] = useState(960);
  useEffect(() => {
    if (frame.current === null) return;
    const watch = new ResizeObserver(([entry]) => setWide(entry?.contentRect.width ?? 960));
    watch.observe(frame.current);
    return () => watch.disconnect();
  }, []);
  const all = workDays(days.tasks);
  const crews = days.crews.filter((crew) => days.tasks.some((task) => task.crew === crew.id));
  const span = hours(days.tasks);
  const per = Math.max(2, Math.floor((wide - 96) / DAY));
  const folds = Array.from({ length: Math.ceil(all.length / per) }, (_, k) =>
    all.slice(k * per, (k + 1) * per),
  );
  return (
    <section aria-labelledby="days-tape">
      <h2 id="days-tape">{say("days.tape")}</h2>
      <p class="soft">{say("days.tapeHelp", { from: span[0], to: span[1] })}</p>
      <Key />
      <div ref={frame} class="tape">
        {folds.map((fold) => (
          <div class="fold" key={fold[0]}>
            <div class="tape-crews" aria-hidden="true">
              <span class="tape-head" />
              {crews.map((crew) => (
                <span key={crew.id}>{term("crew", crew.id)}</span>
              ))}
            </div>
            {fold.map((day) => (
              <Day
                key={day}
                day={day}
                days={days}
                crews={crews.map((crew) => crew.id)}
                span={span}
                chosen={day === chosen}
                onChoose={onChoose}
              />
            ))}
          </div>
        ))}
      </div>
    </section>
  );
}

interface DayProps {
  readonly day: string;
  readonly days: Days;
  readonly crews: readonly string[];
  readonly span: readonly [number, number];
  readonly chosen: boolean;
  readonly onChoose: (day: string) => void;
}

function Day({ day, days, crews, span, chosen, onChoose }: DayProps): JSX.Element {
  const here = days.tasks.filter(
    (task) => task.start.slice(0, 10) <= day && task.end.slice(0, 10) >= day,
  );
  const holds = here.filter(
    (task) => task.hold_point !== null && task.end.slice(0, 10) === day,
  ).length;
  const at = (hour: number): number =>
    ((Math.min(Math.max(hour, span[0]), span[1]) - span[0]) / (span[1] - span[0])) * DAY;
  return (
    <button type="button" class="tape-day" aria-pressed={chosen} onClick={() => onChoose(day)}>
      <span class="tape-head">{showDay(day, language.value)}</span>
      <span class="hidden-words">: {say("days.dayOf", { n: here.length, holds })}</span>
      <svg
        viewBox={`0 0 ${DAY} ${CREW * crews.length}`}
        preserveAspectRatio="none"
        aria-hidden="true"
      >
        {crews.map((crew, row) => (
          <g key={crew} transform={`translate(0 ${row * CREW})`}>
            <line class="tape-rule" x1="0" x2={DAY} y1={CREW} y2={CREW} />
            {lanesOn(
              here.filter((task) => task.crew === crew),
              day,
            )
              .slice(0, 2)
              .map((lane, k) =>
                lane.map((bar) => (
                  <g key={`${bar.from} ${bar.sort}`}>
                    <rect
                      class={`sort ${bar.sort}`}
                      x={at(bar.from)}
                      width={Math.max(at(bar.to) - at(bar.from), 1)}
                      y={3 + k * (LANE + 2)}
                      height={LANE}
                      fill={`url(#sort-${bar.sort})`}
                    />
                    {bar.critical && (
                      <rect
                        class="chain"
                        x={at(bar.from)}
                        width={Math.max(at(bar.to) - at(bar.from), 1)}
                        y={1 + k * (LANE + 2) + LANE}
                        height="3"
                      />
                    )}
                  </g>
                )),
              )}
          </g>
        ))}
      </svg>
      <span class="tape-holds" aria-hidden="true">
        {holds > 0 ? `◆ ${holds}` : " "}
      </span>
    </button>
  );
}

/** What the patterns mean; it also carries the patterns themselves. */
function Key(): JSX.Element {
  return (
    <ul class="plot-key">
      {SORTS.map((sort) => (
        <li key={sort}>
          <svg width="44" height="18" viewBox="0 0 44 18" aria-hidden="true">
            <Pattern sort={sort} />
            <rect
              class={`sort ${sort}`}
              x="1"
              y="2"
              width="42"
              height="14"
              fill={`url(#sort-${sort})`}
            />
          </svg>
          {say(`sort.${sort}` as WordKey)}
        </li>
      ))}
      <li>
        <svg width="44" height="18" viewBox="0 0 44 18" aria-hidden="true">
          <rect class="chain" x="1" y="12" width="42" height="4" />
        </svg>
        {say("days.chain")}
      </li>
      <li>
        <span aria-hidden="true">◆</span> {say("days.holdKey")}
      </li>
    </ul>
  );
}

const PATTERNS: Readonly<Record<Sort, readonly [string, string, string]>> = {
  setting: ["#d9d9d9", "#000000", ""],
  beads: ["#dcecf6", "#0072b2", "M0 6 6 0M-1 1 1-1M5 7 7 5"],
  strips: ["#f9d9c4", "#b34a00", "M0 0 6 6M5-1 7 1M-1 5 1 7"],
  covering: ["#c9ebe0", "#00694c", "M0 1.5H6M0 4.500H6"],
  cleaning: ["#ffffff", "#3b87b8", "M3 0V6"],
  testing: ["#f6dcea", "#9b3f72", "M1.500 0V6M4.500 0V6M0 3H6"],
  finishing: ["#fdf0cf", "#8a6200", "M1 1h1v1h-1zM4 4h1v1h-1z"],
};

function Pattern({ sort }: { sort: Sort }): JSX.Element {
  const [fill, ink, path] = PATTERNS[sort];
  return (
    <defs>
      <pattern id={`sort-${sort}`} width="6" height="6" patternUnits="userSpaceOnUse">
        <rect width="6" height="6" fill={fill} />
        {path !== "" && <path d={path} stroke={ink} stroke-width="1" fill="none" />}
      </pattern>
    </defs>
  );
}
