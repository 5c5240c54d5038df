/** The sheet of one day: who does what from when, what somebody signs before it is hidden. */

import type { JSX } from "preact";
import type { Schemas } from "../api/client";
import { Notice } from "../parts/notices";
import { say, term } from "../state/say";
import { language } from "../state/ways";
import type { Wishes } from "../state/work";
import { showDay } from "../units/moment";
import { Refs } from "./days";
import { clock, dayOf, type Task } from "./days_sorts";

type Days = Schemas["DaysOut"];

interface Props {
  readonly house: string;
  readonly days: Days;
  readonly day: string;
  readonly open: readonly string[];
  readonly asked: Partial<Wishes>;
  readonly onAgain: (more: Partial<Wishes>) => void;
  readonly onChoose: (day: string) => void;
}

export function DaySheet({ house, days, day, open, asked, onAgain, onChoose }: Props): JSX.Element {
  const here = days.tasks.filter((task) => dayOf(task.start) <= day && dayOf(task.end) >= day);
  const place = open.indexOf(day);
  const [before, after] = [open[place - 1], open[place + 1]];
  const cost = asked.rain_cost === day ? days.rain_day_cost_working_h : undefined;
  const lost = asked.rain ?? [];
  return (
    <section class="day-sheet" aria-labelledby="day-sheet">
      <div class="row ends">
        <h2 id="day-sheet">
          {say("days.sheetOf", {
            day: showDay(day, language.value),
            n: place + 1,
            all: open.length,
          })}
        </h2>
        <span class="row">
          <button
            type="button"
            disabled={before === undefined}
            onClick={() => before !== undefined && onChoose(before)}
          >
            {say("days.before")}
          </button>
          <button
            type="button"
            disabled={after === undefined}
            onClick={() => after !== undefined && onChoose(after)}
          >
            {say("days.after")}
          </button>
        </span>
      </div>
      <div class="row">
        <button type="button" onClick={() => onAgain({ rain_cost: day })}>
          {say("days.rainCost")}
        </button>
        <button type="button" onClick={() => onAgain({ rain: [...lost, day] })}>
          {say("days.itRains")}
        </button>
      </div>
      {cost !== undefined && (
        <Notice>{cost === null ? say("days.costUnknown") : say("days.cost", { n: cost })}</Notice>
      )}
      {[...days.crews.map((crew) => crew.id), ""].map((crew) => {
        const mine = here.filter((task) => task.crew === crew);
        return mine.length === 0 ? null : (
          <Crew key={crew} house={house} crew={crew} tasks={mine} />
        );
      })}
    </section>
  );
}

function Crew({
  house,
  crew,
  tasks,
}: {
  house: string;
  crew: string;
  tasks: readonly Task[];
}): JSX.Element {
  return (
    <>
      <h3>{crew === "" ? say("days.reached") : term("crew", crew)}</h3>
      <ol class="turns">
        {tasks.map((task) => (
          <li key={task.id} class={task.critical ? "critical" : ""}>
            <span class="figure">{clock(task.start)}</span>
            <span>
              {task.title} <Refs house={house} refs={task.refs} />
              {task.hold_point !== null && (
                <span class="hold">
                  <span aria-hidden="true">◆ </span>
                  <strong>
                    {say("days.signs", {
                      who: task.released_by === null ? "–" : term("who", task.released_by),
                    })}
                  </strong>{" "}
                  {task.hold_point}
                </span>
              )}
            </span>
          </li>
        ))}
      </ol>
    </>
  );
}
