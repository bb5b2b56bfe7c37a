import { useState } from "preact/hooks";
import type { Yard } from "../../../records/index.js";
import { Icon } from "../../parts/Icon.js";
import { Key } from "../../parts/keys.js";
import { core } from "../../words/core.js";
import { editWords } from "../../words/edit.js";
import { figures, inDigits } from "../../words/format.js";
import { yardWords } from "../../words/yard.js";
import { cross, down, plus, up } from "../edit/drawings.js";
import type { Editing } from "../edit/editing.js";
import { FieldName, Fields, Finer, Note } from "../edit/FieldRow.js";
import { problemText } from "../edit/problem-text.js";
import { refusal, typeIn } from "../edit/typing.js";
import { ValuePad } from "../edit/ValuePad.js";
import { demandFields, money, placesOf, priceFields, tariffKind } from "./fields.js";
import { clockText, minuteText } from "./hours.js";
import { SpanPad } from "./SpanPad.js";

type Band = Yard["tariff"]["bands"][number];
const PATH = "tariff.bands";
const NIGHT: Omit<Band, "perKwhMinor"> = { from: "22:00", to: "06:00" };

/** How power is paid: by the clock, by the charge, or not at all. */
export function Prices({ on }: { on: Editing<"yard"> }) {
  const yard = on.record;
  return (
    <>
      <Fields of={[tariffKind]} on={on} />
      {yard.tariff.kind === "bands" && <Bands on={on} />}
      <Fields of={priceFields(yard)} on={on} />
      {yard.tariff.kind !== "none" && <Finer of={demandFields(yard)} on={on} />}
    </>
  );
}

function Bands({ on }: { on: Editing<"yard"> }) {
  const words = yardWords.now();
  const yard = on.record;
  const [open, setOpen] = useState<number | null>(null);
  const { bands } = yard.tariff;
  const put = (to: (bands: readonly Band[]) => readonly Band[]) =>
    void typeIn("yard", yard, ({ tariff }) => [{ path: PATH, value: to(tariff.bands) }], core.now().kept);
  const gap = on.warnings.find((warning) => warning.where === PATH && warning.code === "bandsLeaveGap");
  return (
    <section class="list">
      <p class="hint">{words.bandsHint}</p>
      {bands.map((_band, n) => (
        <BandRow
          // bands have no name of their own; their place tells them apart
          key={`${n}:${bands.length}`}
          on={on}
          n={n}
          open={open === n}
          onOpen={() => setOpen(open === n ? null : n)}
          onChange={(more) => put((all) => all.map((old, i) => (i === n ? { ...old, ...more } : old)))}
          onMove={(by) => {
            put((all) => swapped(all, n, n + by));
            setOpen(n + by);
          }}
          onDrop={() => {
            put((all) => all.filter((_, i) => i !== n));
            setOpen(null);
          }}
        />
      ))}
      {gap && bands.length > 0 && <Note>{problemText(editWords.now(), gap)}</Note>}
      <div class="acts adding">
        <Key
          onPress={() => {
            put((all) => [...all, { ...NIGHT, perKwhMinor: yard.tariff.otherwisePerKwhMinor }]);
            setOpen(bands.length);
          }}
        >
          <Icon of={plus} size={20} />
          {words.addBand}
        </Key>
      </div>
    </section>
  );
}

function swapped<T>(list: readonly T[], a: number, b: number): readonly T[] {
  const [one, other] = [list[a], list[b]];
  if (one === undefined || other === undefined) return list;
  return list.map((item, i) => (i === a ? other : i === b ? one : item));
}

interface BandProps {
  readonly on: Editing<"yard">;
  readonly n: number;
  readonly open: boolean;
  readonly onOpen: () => void;
  readonly onChange: (more: Partial<Band>) => void;
  readonly onMove: (by: -1 | 1) => void;
  readonly onDrop: () => void;
}

function BandRow(props: BandProps) {
  const { on, n, open } = props;
  const yard = on.record;
  const band = yard.tariff.bands[n] as Band;
  const edit = editWords.now();
  const here = on.warnings.filter((warning) => warning.where === `${PATH}.${n}`);
  const shown = priceText(yard, band.perKwhMinor);
  return (
    <div class={`part ${open ? "open" : ""}`}>
      <button type="button" class="part-row" aria-expanded={open} onClick={props.onOpen}>
        <span class="no fig">{figures(n + 1)}</span>
        <b>{inDigits(`${band.from} – ${band.to}`)}</b>
        <span class="fig">
          {shown} {yard.currency}
        </span>
      </button>
      {here.map((warning) => (
        <Note key={warning.code}>{problemText(edit, warning)}</Note>
      ))}
      {open && <BandFields {...props} band={band} />}
    </div>
  );
}

const priceText = (yard: Yard, minor: number): string => figures(minor / 10 ** placesOf(yard), placesOf(yard));

function BandFields(props: BandProps & { readonly band: Band }) {
  const { on, n, band } = props;
  const words = yardWords.now();
  const edit = editWords.now();
  const yard = on.record;
  const [asking, setAsking] = useState<"span" | "price" | null>(null);
  const spec = money(yard, "tariff.otherwisePerKwhMinor");
  const times = 10 ** placesOf(yard);
  const withPrice = (price: number) =>
    yard.tariff.bands.map((old, i) => (i === n ? { ...old, perKwhMinor: price * times } : old));
  return (
    <div class="part-fields">
      <ul class="fields">
        <li class="field">
          <FieldName name={`${edit.from} – ${edit.to}`} />
          <Key kind="value" onPress={() => setAsking("span")}>
            <span class="shown fig">{inDigits(`${band.from} – ${band.to}`)}</span>
          </Key>
        </li>
        <li class="field">
          <FieldName name={words.price} />
          <Key kind="value" onPress={() => setAsking("price")}>
            <span class="shown">
              <span class="fig">{priceText(yard, band.perKwhMinor)}</span>
              <span class="unit"> {yard.currency}</span>
            </span>
          </Key>
        </li>
      </ul>
      <div class="acts moves">
        {n > 0 && (
          <Key onPress={() => props.onMove(-1)}>
            <Icon of={up} size={20} />
            {edit.up}
          </Key>
        )}
        {n < yard.tariff.bands.length - 1 && (
          <Key onPress={() => props.onMove(1)}>
            <Icon of={down} size={20} />
            {edit.down}
          </Key>
        )}
        <Key onPress={props.onDrop}>
          <Icon of={cross} size={20} />
          {words.removeBand}
        </Key>
      </div>
      {asking === "span" && (
        <SpanPad
          title={words.price}
          from={minuteText(band.from)}
          to={minuteText(band.to)}
          onClose={() => setAsking(null)}
          onKeep={(from, to) => {
            setAsking(null);
            props.onChange({ from: clockText(from), to: clockText(to) });
          }}
        />
      )}
      {asking === "price" && (
        <ValuePad
          title={words.price}
          unit="none"
          unitText={yard.currency}
          decimals={placesOf(yard)}
          now={band.perKwhMinor / times}
          refuses={(price) => {
            const why = refusal("yard", yard, { path: PATH, value: withPrice(price) });
            return why ? problemText(edit, why, spec.kind === "number" ? spec : undefined) : null;
          }}
          onKeep={(price) => {
            setAsking(null);
            props.onChange({ perKwhMinor: price * times });
          }}
          onClose={() => setAsking(null)}
        />
      )}
    </div>
  );
}
