import { useState } from "preact/hooks";
import { csvRows, separatorOf } from "../../../records/import/csv.js";
import {
  type CsvAnswers,
  type CsvDays,
  DAY_COLUMNS,
  type DateOrder,
  type DayColumn,
  daysOfCsv,
} from "../../../records/import/money-days.js";
import type { Entry } from "../../../records/index.js";
import type { Outcome, Problem } from "../../../units/outcome.js";
import { keep, vehicles } from "../../fleet.js";
import { ChoicePad } from "../../parts/ChoicePad.js";
import { Key } from "../../parts/keys.js";
import { Say } from "../../parts/Say.js";
import { openedStore } from "../../shelf.js";
import { moneyWords } from "../../words/money.js";

const MOST_BYTES = 5_000_000;
const ORDERS: readonly DateOrder[] = ["dayFirst", "monthFirst", "yearFirst"];

interface Look {
  readonly text: string;
  readonly answers: CsvAnswers;
  readonly found: Outcome<CsvDays>;
  /** Days that are not written yet; those that are stay as they are. */
  readonly fresh: readonly Entry[];
}

/** Days out of a spreadsheet: what the file does not tell is asked for, what cannot be read is left out and named, then all or nothing. */
export function BringTable({ currency }: { currency: string }) {
  const words = moneyWords.now();
  const [look, setLook] = useState<Look | null>(null);
  const read = async (text: string, answers: CsvAnswers) => {
    const plates = new Map(vehicles.value.map(({ plate, id }) => [plate, id]));
    const found = daysOfCsv(text, { plates, currency }, answers);
    setLook({ text, answers, found, fresh: found.ok ? await notThere(found.value.entries) : [] });
  };
  const answer = (more: CsvAnswers) => look && void read(look.text, { ...look.answers, ...more });
  const take = async () => {
    if (!look) return;
    if (
      await keep(
        look.fresh.map((put) => ({ kind: "entry" as const, put })),
        words.kept,
      )
    )
      setLook(null);
  };
  return (
    <section class="no-print">
      <label class="key way as-key m-bring">
        <span class="what">
          <b>{words.bringIn.title}</b>
          <span>{words.bringIn.hint}</span>
        </span>
        <input
          type="file"
          class="aside"
          accept=".csv,text/csv,text/plain"
          onChange={(event) => {
            const file = event.currentTarget.files?.[0];
            event.currentTarget.value = ""; // the same file may be chosen again
            if (file && file.size <= MOST_BYTES) void file.text().then((text) => read(text, {}));
          }}
        />
      </label>
      {look && !look.found.ok && look.found.problems[0] && (
        <Ask problem={look.found.problems[0]} text={look.text} onAnswer={answer} />
      )}
      {look?.found.ok && (
        <Preview days={look.found.value} fresh={look.fresh} onTake={() => void take()} onLeave={() => setLook(null)} />
      )}
    </section>
  );
}

/** Days whose vehicle has none of that date yet. */
async function notThere(entries: readonly Entry[]): Promise<readonly Entry[]> {
  const dates = entries.map(({ date }) => date).sort();
  const [first, last] = [dates[0], dates.at(-1)];
  if (first === undefined || last === undefined) return [];
  const held = await (await openedStore()).between("entry", first, last);
  const there = new Set(held.ok ? held.value.records.map(({ vehicleId, date }) => `${vehicleId} ${date}`) : []);
  return entries.filter(({ vehicleId, date }) => !there.has(`${vehicleId} ${date}`));
}

/** One question that only a person can answer, or what is wrong with the whole file. */
function Ask({ problem, text, onAnswer }: { problem: Problem; text: string; onAnswer: (answers: CsvAnswers) => void }) {
  const words = moneyWords.now();
  const sample = String(problem.figures?.sample ?? "");
  switch (problem.code) {
    case "csvDecimalSign":
      return (
        <fieldset class="m-ways">
          <legend class="hint">
            {words.tableSign} {sample}
          </legend>
          <Key onPress={() => onAnswer({ decimalSign: "." })}>
            <span class="fig">0.5</span>
          </Key>
          <Key onPress={() => onAnswer({ decimalSign: "," })}>
            <span class="fig">0,5</span>
          </Key>
        </fieldset>
      );
    case "csvDateOrder":
      return (
        <fieldset class="m-ways">
          <legend class="hint">
            {words.bringIn.order} {sample}
          </legend>
          {ORDERS.map((dateOrder) => (
            <Key key={dateOrder} onPress={() => onAnswer({ dateOrder })}>
              {words.bringIn[dateOrder]}
            </Key>
          ))}
        </fieldset>
      );
    case "csvColumns":
      return <Columns heads={headsOf(text)} onAnswer={onAnswer} />;
    default:
      return (
        <p class="m-problems">
          <Say text={words.bringIn.line(Number(problem.where.split(".")[1] ?? 1), words.bringIn.why.csvQuote)} />
        </p>
      );
  }
}

function headsOf(text: string): readonly string[] {
  const rows = csvRows(text, separatorOf(text));
  return rows.ok ? (rows.value[0] ?? []) : [];
}

/** Every column of the file as a key that says what it is. */
function Columns({ heads, onAnswer }: { heads: readonly string[]; onAnswer: (answers: CsvAnswers) => void }) {
  const words = moneyWords.now();
  const [columns, setColumns] = useState<readonly (DayColumn | null)[]>(heads.map(() => null));
  const [asks, setAsks] = useState<number | null>(null);
  const put = (value: DayColumn | "leaveOut") => {
    setColumns(columns.map((old, i) => (i === asks ? (value === "leaveOut" ? null : value) : old)));
    setAsks(null);
  };
  return (
    <div class="m-fields">
      <p class="hint">{words.bringIn.columns}</p>
      {heads.map((head, i) => (
        <Key key={`${i}${head}`} kind="field" onPress={() => setAsks(i)}>
          <span class="label">{head}</span>
          <span class="value">{columnWord(words.bringIn, columns[i] ?? null)}</span>
        </Key>
      ))}
      <Key
        kind={columns.includes("date") ? "main" : "wait"}
        onPress={() => columns.includes("date") && onAnswer({ columns })}
      >
        {words.bringIn.take}
      </Key>
      {asks !== null && (
        <ChoicePad
          title={heads[asks] ?? ""}
          choices={[...DAY_COLUMNS, "leaveOut" as const].map((value) => ({
            value,
            word: value === "leaveOut" ? words.bringIn.leaveOut : words.bringIn.column[value],
          }))}
          chosen={columns[asks] ?? "leaveOut"}
          onKeep={put}
          onClose={() => setAsks(null)}
        />
      )}
    </div>
  );
}
type BringWords = ReturnType<typeof moneyWords.now>["bringIn"];
const columnWord = (words: BringWords, column: DayColumn | null): string =>
  column === null ? words.leaveOut : words.column[column];

const MOST_LINES = 12;

function Preview(props: {
  readonly days: CsvDays;
  readonly fresh: readonly Entry[];
  readonly onTake: () => void;
  readonly onLeave: () => void;
}) {
  const words = moneyWords.now();
  const { bringIn } = words;
  const { days, fresh } = props;
  const there = days.entries.length - fresh.length;
  const why = (code: string) => bringIn.why[code as keyof typeof bringIn.why] ?? bringIn.why.other;
  return (
    <div class="m-problems" role="status">
      <p>
        <Say text={fresh.length > 0 ? bringIn.comeIn(fresh.length) : bringIn.none} />
      </p>
      {there > 0 && (
        <p>
          <Say text={bringIn.alreadyThere(there)} />
        </p>
      )}
      {days.problems.length > 0 && (
        <ul>
          <li>
            <Say text={bringIn.linesLeft(days.problems.length)} />
          </li>
          {days.problems.slice(0, MOST_LINES).map(({ code, where }) => (
            <li key={`${code}${where}`}>
              <Say text={bringIn.line(Number(where.split(".")[1] ?? 0), why(code))} />
            </li>
          ))}
        </ul>
      )}
      {fresh.length > 0 && (
        <Key kind="main" onPress={props.onTake}>
          {bringIn.take}
        </Key>
      )}
      <Key onPress={props.onLeave}>{words.leaveOut}</Key>
    </div>
  );
}
