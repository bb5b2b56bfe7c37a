import { useState } from "preact/hooks";
import type { DayLine } from "../../../calc/money/index.js";
import type { MoneyBook } from "../../../records/map/money-book.js";
import { Key } from "../../parts/keys.js";
import { moneyWords } from "../../words/money.js";
import { linesOfMonth } from "./month-model.js";
import { saveText } from "./save-text.js";

export type LinesOf = () => Promise<readonly { readonly plate: string; readonly lines: readonly DayLine[] }[]>;

/** Day lines of some books, of one month or of all. */
export const booksLines = (books: readonly MoneyBook[], month: string | null) =>
  books.map((book) => ({
    plate: book.vehicle.plate,
    lines: month === null ? book.lines : linesOfMonth(book, month),
  }));

/** The table of the days for a spreadsheet: asks which decimal sign it reads, and takes nothing for granted. */
export function TableKeys({ linesOf, month }: { linesOf: LinesOf; month: string | null }) {
  const words = moneyWords.now();
  const [asks, setAsks] = useState(false);
  const give = async (comma: boolean) => {
    setAsks(false);
    const [{ dayLinesCsv }, { COMMA_FORM, PLAIN_FORM }] = await Promise.all([
      import("../../../records/export/money-csv.js"),
      import("../../../records/export/csv.js"),
    ]);
    const vehicles = await linesOf();
    saveText(
      `noonplug-money-${month ?? "all"}.csv`,
      "text/csv",
      dayLinesCsv(vehicles, comma ? COMMA_FORM : PLAIN_FORM),
    );
  };
  if (!asks)
    return (
      <div class="m-ways no-print">
        <Key onPress={() => setAsks(true)}>{words.table}</Key>
      </div>
    );
  return (
    <fieldset class="m-ways no-print">
      <legend class="hint">{words.tableSign}</legend>
      <Key onPress={() => give(false)}>
        <span class="fig">0.5</span>
      </Key>
      <Key onPress={() => give(true)}>
        <span class="fig">0,5</span>
      </Key>
    </fieldset>
  );
}
