/** What is done when: the run of days, the sheet of one day, every task. */

import { useSignal } from "@preact/signals";
import type { JSX } from "preact";
import type { Schemas } from "../api/client";
import type { HousePage } from "../desk";
import { Failure, Framed, Notice, Waiting } from "../parts/notices";
import { Sheet } from "../parts/sheet";
import { Table } from "../parts/table";
import { Files, ResultLine, useStanding } from "../parts/work_result";
import { useRead } from "../state/held";
import { addressOf } from "../state/route";
import { say, term } from "../state/say";
import { language } from "../state/ways";
import { ask, type Job, useWishes, type Wishes } from "../state/work";
import { showDay } from "../units/moment";
import { showTime } from "../units/show";
import { DaysForm } from "./days_form";
import { DaySheet } from "./days_sheet";
import { clock, dayOf, type Task, workDays } from "./days_sorts";
import { DaysTape } from "./days_tape";

type Days = Schemas["DaysOut"];

export function Page({ house }: HousePage): JSX.Element {
  const standing = useStanding("days");
  const done = standing?.done ?? null;
  const asked = useWishes(done);
  const held = useRead(done === null ? null : "/api/v1/jobs/{job}/days", {
    path: { job: done?.id ?? "" },
  });
  const days = done === null ? null : held.value;
  return (
    <Sheet title={say("days.title")} house={house.name}>
      <p>{say("days.lead")}</p>
      <DaysForm
        key={`${house.id} ${asked === null ? "" : (done?.id ?? "")}`}
        house={house.id}
        asked={asked ?? {}}
        busy={standing?.open != null}
        open={standing !== null && done === null}
      />
      <ResultLine standing={standing} none={say("days.none")} />
      {held.error !== null && done !== null && <Failure error={held.error} />}
      {done !== null && days === null && held.error === null && <Waiting />}
      {done !== null && days !== null && (
        <Result house={house.id} job={done} days={days} asked={asked ?? {}} />
      )}
    </Sheet>
  );
}

interface ResultProps {
  readonly house: string;
  readonly job: Job;
  readonly days: Days;
  readonly asked: Partial<Wishes>;
}

function Result({ house, job, days, asked }: ResultProps): JSX.Element {
  const open = workDays(days.tasks);
  const day = useSignal(open[0] ?? "");
  const shown = open.includes(day.value) ? day.value : (open[0] ?? "");
  if (days.tasks.length === 0) return <NoPlan days={days} />;
  const again = (more: Partial<Wishes>): void => void ask(house, "days", { ...asked, ...more });
  return (
    <>
      <Ends days={days} />
      <DaysTape
        days={days}
        chosen={shown}
        onChoose={(next) => {
          day.value = next;
        }}
      />
      <DaySheet
        house={house}
        days={days}
        day={shown}
        open={open}
        asked={asked}
        onAgain={again}
        onChoose={(next) => {
          day.value = next;
        }}
      />
      <h2>{say("days.files")}</h2>
      <Files job={job} />
      <Tasks house={house} tasks={days.tasks} />
      <Notes days={days} />
    </>
  );
}

function NoPlan({ days }: { days: Days }): JSX.Element {
  return (
    <div class="notice bad">
      <p>{say(days.conflict.length > 0 ? "days.contradiction" : "days.noAnswer")}</p>
      <ol>
        {days.conflict.map((one) => (
          <li key={one}>{one}</li>
        ))}
      </ol>
      {days.notes.map((one) => (
        <p key={one} class="soft">
          {one}
        </p>
      ))}
    </div>
  );
}

function Ends({ days }: { days: Days }): JSX.Element {
  const lang = language.value;
  const whole = workDays(days.tasks).length;
  return (
    <p class="answer">
      {say("days.ends", {
        from: showDay(days.start, lang),
        to: showDay(days.end ?? "", lang),
        time: clock(days.end ?? ""),
        n: whole,
      })}{" "}
      {days.gap <= 0 ? say("days.proven") : say("days.gap", { part: (100 * days.gap).toFixed(1) })}
    </p>
  );
}

function Tasks({ house, tasks }: { house: string; tasks: readonly Task[] }): JSX.Element {
  const lang = language.value;
  return (
    <Table
      title={say("days.tasks")}
      rows={tasks}
      keyOf={(task) => task.id}
      file="tasks"
      selectable
      columns={[
        {
          key: "start",
          head: say("days.start"),
          exported: "start",
          value: (task) => task.start,
          words: (task) => `${showDay(task.start, lang)} ${clock(task.start)}`,
          cell: (task) => (
            <span class="figure">
              {showDay(task.start, lang)} {clock(task.start)}
            </span>
          ),
        },
        {
          key: "end",
          head: say("days.end"),
          exported: "end",
          value: (task) => task.end,
          cell: (task) => (
            <span class="figure">
              {dayOf(task.end) === dayOf(task.start)
                ? clock(task.end)
                : `${showDay(task.end, lang)} ${clock(task.end)}`}
            </span>
          ),
        },
        { key: "title", head: say("days.task"), exported: "task", value: (task) => task.title },
        {
          key: "work",
          head: say("days.work"),
          exported: "work",
          value: (task) => term("days.sort", task.work),
        },
        {
          key: "crew",
          head: say("days.crew"),
          exported: "crew",
          value: (task) => task.crew,
          cell: (task) => (task.crew === "" ? "–" : term("crew", task.crew)),
          words: (task) => term("crew", task.crew),
        },
        {
          key: "takes",
          head: say("days.takes"),
          exported: "likely_s",
          number: true,
          value: (task) => task.duration_s.likely,
          cell: (task) => (task.duration_s.likely === 0 ? "–" : showTime(task.duration_s.likely)),
        },
        {
          key: "float",
          head: say("days.float"),
          exported: "float_working_h",
          number: true,
          value: (task) => task.float_working_h,
          cell: (task) =>
            task.critical ? (
              <Framed word={say("days.critical")} kind="attention" />
            ) : (
              `${task.float_working_h} h`
            ),
        },
        {
          key: "needs",
          head: say("days.needs"),
          exported: "needs_hours",
          value: (task) => (task.window === null ? "" : term("window", task.window)),
        },
        {
          key: "hold",
          head: say("days.hold"),
          exported: "hold_point",
          value: (task) => task.hold_point ?? "",
        },
        {
          key: "refs",
          head: say("days.joints"),
          exported: "joints",
          value: (task) => task.refs.join(", "),
          cell: (task) => <Refs house={house} refs={task.refs} />,
        },
      ]}
    />
  );
}

const MOST = 3;

export function Refs({ house, refs }: { house: string; refs: readonly string[] }): JSX.Element {
  return (
    <>
      {refs.slice(0, MOST).map((ref, k) => (
        <>
          {k > 0 && ", "}
          <a class="figure" href={addressOf(house, ref.startsWith("N-") ? "node" : "joint", ref)}>
            {ref}
          </a>
        </>
      ))}
      {refs.length > MOST && (
        <span class="soft"> {say("days.moreRefs", { n: refs.length - MOST })}</span>
      )}
    </>
  );
}

function Notes({ days }: { days: Days }): JSX.Element | null {
  if (days.notes.length === 0) return null;
  return (
    <Notice>
      <ul>
        {days.notes.map((note) => (
          <li key={note}>{note}</li>
        ))}
      </ul>
    </Notice>
  );
}
