import { CLEAR_SKY_SURE_BELOW_M, HIGH_SKY_OVER_PCT } from "../../../calc/sun/index.js";
import "../edit/edit.css";
import "./yard.css";
import { currencyPlaces } from "../../../calc/money/currency.js";
import { checkRecord } from "../../../records/check.js";
import type { Yard } from "../../../records/index.js";
import { isZone, monthIndex } from "../../../units/zone.js";
import { yards } from "../../fleet.js";
import { Icon } from "../../parts/Icon.js";
import { bright, type Drawing, money as moneyDrawing, plug, slate } from "../../parts/icons.js";
import { clock, cut, eye } from "../../parts/icons-more.js";
import { WayKey } from "../../parts/keys.js";
import { Page } from "../../parts/Page.js";
import type { ScreenProps } from "../../places.js";
import { go } from "../../router.js";
import { handOver } from "../../settings.js";
import { here } from "../../state.js";
import { editWords } from "../../words/edit.js";
import { figures, inDigits, joined } from "../../words/format.js";
import { yardWords } from "../../words/yard.js";
import type { Editing } from "../edit/editing.js";
import { isGuess } from "../edit/spec.js";
import { heldOf } from "../edit/typing.js";
import { yardHere } from "../edit/yard-here.js";
import { Cuts, cutsToCome } from "./Cuts.js";
import { GROUP_NAMES, type GroupName, isGroup } from "./fields.js";
import { People } from "./People.js";
import { Place } from "./Place.js";
import { Prices } from "./Prices.js";
import { Sockets, socketsOf } from "./Sockets.js";
import { Supply } from "./Supply.js";
import { Weather } from "./Weather.js";
import { YardPicture } from "./YardPicture.js";

export const words = [editWords, yardWords];

/** What does the yard have? `yard`, `yard/ID`, `yard/ID/GROUP`. */
export function Screen({ params }: ScreenProps) {
  const last = params.at(-1) ?? "";
  const group = isGroup(last) ? last : null;
  const id = (group ? params.slice(0, -1) : params).join("/");
  const yard = id === "" ? yardHere() : yards.value.find((one) => one.id === id);
  if (!yard) return <NoYard />;
  return group && groupsShown().includes(group) ? <Group yard={yard} group={group} /> : <Home yard={yard} />;
}

/** What the yard pays stays away while the phone is lent out. */
const groupsShown = (): readonly GroupName[] => GROUP_NAMES.filter((name) => name !== "prices" || !handOver.value);

function Home({ yard }: { yard: Yard }) {
  const words = yardWords.now();
  return (
    <Page title={yard.name || words.title} sub={words.title} place="tonight" above="tonight" narrow>
      <YardPicture yard={yard} />
      <ul class="groups">
        {groupsShown().map((group) => (
          <GroupRow key={group} yard={yard} group={group} />
        ))}
      </ul>
      {yards.value.length > 1 && (
        <div class="ways spaced">
          {yards.value
            .filter((other) => other.id !== yard.id)
            .map((other) => (
              <WayKey
                key={other.id}
                icon={slate}
                title={other.name}
                sub={words.other}
                onPress={() => go(`yard/${other.id}`)}
              />
            ))}
        </div>
      )}
    </Page>
  );
}

const DRAWINGS: Readonly<Record<GroupName, Drawing>> = {
  place: eye,
  sockets: plug,
  supply: slate,
  prices: moneyDrawing,
  people: clock,
  cuts: cut,
  weather: bright,
};
/** Paths that belong to a group, by how they begin. */
const PATHS: Readonly<Record<GroupName, readonly string[]>> = {
  place: ["name", "latDeg", "lonDeg", "altitudeM", "zone", "groundClass", "parkShade", "currency"],
  sockets: [],
  supply: ["siteLimitKw", "marginKw", "baseLoadKwByHour"],
  prices: ["tariff"],
  people: ["staff"],
  cuts: ["cuts"],
  weather: ["usualSkyByMonth", "airMinCByMonth", "airMaxCByMonth", "hazeByMonth"],
};
const belongs = (group: GroupName, path: string): boolean =>
  PATHS[group].some((start) => path === start || path.startsWith(`${start}.`));

function GroupRow({ yard, group }: { yard: Yard; group: GroupName }) {
  const words = yardWords.now();
  const edit = editWords.now();
  const held = heldOf("yard", yard.id).some((one) => belongs(group, one.path));
  const odd = checkRecord("yard", yard).warnings.some(
    (warning) => belongs(group, warning.where) && warning.code !== "bandsLeaveGap",
  );
  const guesses = PATHS[group].filter((path) => isGuess(yard, path)).length;
  return (
    <li>
      <button type="button" class="group-row" onClick={() => go(`yard/${yard.id}/${group}`)}>
        <span class="tile">
          <Icon of={DRAWINGS[group]} size={26} />
        </span>
        <span class="what">
          <b>{words.groups[group]}</b>
          <small>{sumOf(yard, group)}</small>
        </span>
        {held || odd ? (
          <strong>{held ? edit.notKept : edit.look}</strong>
        ) : (
          guesses > 0 && <small class="to-check">{edit.guesses(guesses)}</small>
        )}
      </button>
    </li>
  );
}

const kwText = (kw: number): string => figures(kw, Number.isInteger(kw) ? 0 : 1);

function sumOf(yard: Yard, group: GroupName): string {
  const { sums } = yardWords.now();
  switch (group) {
    case "place": {
      const where = sums.place(yard.zone.split("/").at(-1)?.replaceAll("_", " ") ?? "", figures(yard.altitudeM));
      const isHigh = yard.altitudeM > CLEAR_SKY_SURE_BELOW_M;
      return isHigh ? `${where}; ${sums.highSun(figures(HIGH_SKY_OVER_PCT))}` : where;
    }
    case "sockets": {
      const sockets = socketsOf(yard);
      if (sockets.length === 0) return sums.noSockets;
      return sums.sockets(sockets.length, kwText(sockets.reduce((sum, socket) => sum + socket.limitKw, 0)));
    }
    case "supply":
      return yard.siteLimitKw === null ? sums.noLimit : sums.limit(kwText(yard.siteLimitKw));
    case "prices":
      return yard.tariff.kind === "bands"
        ? sums.bands(yard.tariff.bands.length + 1)
        : yard.tariff.kind === "flatFee"
          ? sums.flatFee
          : sums.noPrice;
    case "people":
      return joined(...yard.staff.awake.map((span) => inDigits(`${span.from} – ${span.to}`))) || sums.nobody;
    case "cuts": {
      const cuts = cutsToCome(yard).length;
      return cuts > 0 ? sums.cuts(cuts) : sums.noCuts;
    }
    case "weather": {
      const month = monthIndex(here.value.date);
      return sums.weather(figures(yard.airMinCByMonth[month] ?? 0), figures(yard.airMaxCByMonth[month] ?? 0));
    }
  }
}

function Group({ yard, group }: { yard: Yard; group: GroupName }) {
  const words = yardWords.now();
  const on: Editing<"yard"> = {
    kind: "yard",
    record: yard,
    fields: words.fields,
    choices: words.choices,
    warnings: checkRecord("yard", yard).warnings,
    refuses: (path, value) =>
      path === "zone" && !isZone(String(value))
        ? { code: "zoneUnknown", where: path }
        : path === "currency" && currencyPlaces(String(value)) === null
          ? { code: "currencyUnknown", where: path }
          : null,
  };
  return (
    <Page title={words.groups[group]} sub={yard.name} place="tonight" above={`yard/${yard.id}`} narrow>
      {(group === "supply" || group === "prices" || group === "people" || group === "cuts") && (
        <YardPicture yard={yard} />
      )}
      <GroupOf group={group} on={on} />
    </Page>
  );
}

function GroupOf({ group, on }: { group: GroupName; on: Editing<"yard"> }) {
  switch (group) {
    case "place":
      return <Place on={on} />;
    case "sockets":
      return <Sockets yard={on.record} />;
    case "supply":
      return <Supply on={on} />;
    case "prices":
      return <Prices on={on} />;
    case "people":
      return <People on={on} />;
    case "cuts":
      return <Cuts on={on} />;
    case "weather":
      return <Weather on={on} />;
  }
}

function NoYard() {
  const words = yardWords.now();
  return (
    <Page title={words.title} place="tonight" above="tonight">
      <div class="empty">
        <Icon of={slate} size={72} />
        <p>{words.none}</p>
      </div>
    </Page>
  );
}
