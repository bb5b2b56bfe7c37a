import "./phone.css";
import { useEffect, useState } from "preact/hooks";
import type { Vehicle } from "../../records/index.js";
import { askToKeep, type Kept, space } from "../../store/space.js";
import { exportFleet } from "../../store/transfer.js";
import { civilDate } from "../../units/zone.js";
import { saveCopy } from "../copies.js";
import { saveFile } from "../files.js";
import { type Change, keep, setAsideCount, vehicles, yards } from "../fleet.js";
import { slate } from "../parts/icons.js";
import { eye, kept as keptDrawing, share } from "../parts/icons-more.js";
import { Key, KeyRow, WayKey } from "../parts/keys.js";
import { Page } from "../parts/Page.js";
import { TextPad } from "../parts/TextPad.js";
import { digitsOf, handOver, type Look, type Role, set, settings, type TextSize } from "../settings.js";
import { openedStore } from "../shelf.js";
import { zone } from "../state.js";
import { tellDone } from "../undo.js";
import { hasVoice, say } from "../voice.js";
import { core } from "../words/core.js";
import {
  type Digits,
  figures,
  hasOwnDigits,
  inDigits,
  LANGUAGE_NAMES,
  LANGUAGES,
  type Language,
  usualDigits,
} from "../words/format.js";
import { turnTo } from "../words/load.js";
import { moneyWords } from "../words/money.js";
import { phoneWords } from "../words/phone.js";
import { BringIn } from "./BringIn.js";
import { Lent } from "./money/Lent.js";

export const words = [phoneWords, moneyWords];

const LOOKS: readonly Look[] = ["day", "night", "sun"];
const SIZES: readonly TextSize[] = [1, 2, 3, 4];
const ROLES: readonly Role[] = ["driver", "yard", "owner", "fitter"];
const LINES = [10, 15, 20, 25, 30];

/** Settings, copies, storage: everything about this phone and nothing about the yard. */
export function Screen() {
  const words = phoneWords.now();
  return (
    <Page title={words.title} above="vehicles" place="vehicles" onSay={() => void say(words.spoken)} narrow>
      <Showing />
      <Line />
      {handOver.value ? <p class="hint">{moneyWords.now().handedOver}</p> : <Copies />}
      <Storage />
      <Last />
    </Page>
  );
}

function Showing() {
  const words = phoneWords.now();
  const { language, look, textSize, role, voice } = settings.value;
  const [missing, setMissing] = useState(false);
  const speakIn = (to: Language, digits: Digits) =>
    turnTo(to, digits).then(
      () => {
        setMissing(false);
        set({ language: to, digits });
      },
      () => setMissing(true),
    );
  return (
    <>
      <section class="ask">
        <h2>{words.language}</h2>
        <KeyRow
          asks={words.language}
          chosen={language}
          onPick={(to) => void speakIn(to, usualDigits(to))}
          choices={LANGUAGES.map((value) => ({ value, word: LANGUAGE_NAMES[value] }))}
          wide
        />
        {missing && <p class="hint">{words.languageMissing}</p>}
      </section>
      {hasOwnDigits(language) && (
        <section class="ask">
          <h2>{words.digits}</h2>
          <KeyRow
            asks={words.digits}
            chosen={digitsOf(settings.value)}
            onPick={(digits) => void speakIn(language, digits)}
            choices={[
              { value: "latin", word: "0 1 2 3" },
              { value: "own", word: ownDigits(language) },
            ]}
          />
        </section>
      )}
      <section class="ask">
        <h2>{words.look}</h2>
        <KeyRow
          asks={words.look}
          chosen={look}
          onPick={(to) => set({ look: to })}
          choices={LOOKS.map((value) => ({ value, word: words.looks[value] }))}
        />
      </section>
      <section class="ask">
        <h2>{words.textSize}</h2>
        <KeyRow
          asks={words.textSize}
          chosen={textSize}
          onPick={(to) => set({ textSize: to })}
          choices={SIZES.map((value, i) => ({ value, word: words.sizes[i] ?? "" }))}
        />
      </section>
      {!handOver.value && (
        <section class="ask">
          <h2>{words.opens}</h2>
          <KeyRow
            asks={words.opens}
            chosen={role}
            onPick={(to) => set({ role: to })}
            choices={ROLES.map((value) => ({ value, word: words.roles[value] }))}
          />
        </section>
      )}
      <Lent />
      {hasVoice() || !voice ? (
        <section class="ask">
          <h2>{words.voice}</h2>
          <KeyRow
            asks={words.voice}
            chosen={voice ? "on" : "off"}
            onPick={(to) => set({ voice: to === "on" })}
            choices={[
              { value: "on", word: words.on },
              { value: "off", word: words.off },
            ]}
          />
        </section>
      ) : null}
    </>
  );
}

function ownDigits(language: Language): string {
  const shown = new Intl.NumberFormat(
    `${language}-u-nu-${language === "ur" ? "arabext" : language === "bn" ? "beng" : "deva"}`,
  );
  return [0, 1, 2, 3].map((digit) => shown.format(digit)).join(" ");
}

/** One reserve line for all vehicles; each vehicle's own stands on its sheet. */
function Line() {
  const words = phoneWords.now();
  const all = vehicles.value;
  if (all.length === 0) return null;
  const shares = new Set(all.map((vehicle) => Math.round(vehicle.battery.reserveShare * 100)));
  const put = (percent: number) => {
    const withLine = (vehicle: Vehicle): Change => ({
      kind: "vehicle",
      put: {
        ...vehicle,
        battery: { ...vehicle.battery, reserveShare: Math.max(percent / 100, vehicle.battery.floorShare) },
        guesses: vehicle.guesses.filter((path) => path !== "battery.reserveShare"),
      },
    });
    void keep(() => vehicles.value.map(withLine), words.lineKept);
  };
  return (
    <section class="ask">
      <h2>{words.line}</h2>
      <p class="hint">{words.lineHint}</p>
      <KeyRow
        asks={words.line}
        chosen={shares.size === 1 ? ([...shares][0] ?? null) : null}
        onPick={put}
        choices={LINES.map((value) => ({ value, word: `${figures(value)} %` }))}
      />
    </section>
  );
}

const today = (): string => civilDate(Date.now(), zone.value);

function Copies() {
  const words = phoneWords.now();
  const saveFleet = async () => {
    const title = yards.value[0]?.name ?? core.now().app;
    const made = await exportFleet(await openedStore(), { title, invented: settings.value.demo !== null });
    if (!made.ok) return;
    const { writeFleetFile } = await import("../../records/fleet-file.js");
    await saveFile(`noonplug-fleet-${today()}.json`, writeFleetFile(made.value.fleet), "application/json");
    if (made.value.leftOut.length > 0) tellDone({ says: words.leftOut(made.value.leftOut.length), undo: null });
  };
  return (
    <div class="ways spaced">
      <WayKey icon={share} title={words.copy} sub={words.copyHint} main onPress={() => saveCopy()} />
      <WayKey icon={slate} title={words.fleetFile} sub={words.fleetFileHint} onPress={() => saveFleet()} />
      {settings.value.demo === null && <BringIn />}
    </div>
  );
}

const MEGABYTE = 1_048_576;
const NEARLY_FULL = 0.8;

function Storage() {
  const words = phoneWords.now();
  const [room, setRoom] = useState<Awaited<ReturnType<typeof space>>>(null);
  const [promise, setPromise] = useState<Kept>("unknown");
  useEffect(() => {
    void space().then(setRoom);
    void navigator.storage?.persisted?.().then((yes) => setPromise(yes ? "kept" : "asked"));
  }, []);
  const share = room ? room.usedBytes / Math.max(1, room.quotaBytes) : 0;
  return (
    <section class="ask">
      <h2>{words.storage}</h2>
      {room && <p>{words.used(room.usedBytes / MEGABYTE, Math.ceil(share * 100))}</p>}
      {share > NEARLY_FULL && <p>{words.nearlyFull}</p>}
      <p>{promise === "kept" ? words.staysKept : words.mayGo}</p>
      {promise !== "kept" && <Key onPress={() => askToKeep().then(setPromise)}>{words.askKeep}</Key>}
      {setAsideCount.value > 0 && !handOver.value && (
        <div class="ways bare">
          <p>{words.setAside(setAsideCount.value)}</p>
          <WayKey icon={keptDrawing} title={words.saveAside} onPress={() => saveAside()} />
        </div>
      )}
    </section>
  );
}

async function saveAside(): Promise<void> {
  const found = await (await openedStore()).setAside();
  if (found.ok)
    await saveFile(`noonplug-set-aside-${today()}.json`, JSON.stringify(found.value, null, 1), "application/json");
}

const TO_TYPE = "1234";

/** The yard that is not real, the end of everything, and what this is. */
function Last() {
  const words = phoneWords.now();
  const [asking, setAsking] = useState(false);
  const demo = () => import("../demo.js").then(({ startDemo }) => startDemo());
  return (
    <>
      <div class="ways spaced">
        {settings.value.demo === null && <WayKey icon={eye} title={words.demo} sub={words.demoHint} onPress={demo} />}
        {!handOver.value && (
          <Key kind="plain" onPress={() => setAsking(true)}>
            {words.removeAll}
          </Key>
        )}
      </div>
      <footer class="about">
        <p>{words.about}</p>
        <p>{words.licences}</p>
        <p>{words.version(__VERSION__)}</p>
      </footer>
      {asking && (
        <TextPad
          title={words.removeAsk(inDigits(TO_TYPE))}
          start=""
          longest={8}
          onClose={() => setAsking(false)}
          onKeep={(typed) => {
            if (typed === TO_TYPE || typed === inDigits(TO_TYPE)) void removeEverything();
          }}
        />
      )}
    </>
  );
}

async function removeEverything(): Promise<void> {
  const [{ closeStore }, { DATABASE, DEMO_DATABASE }] = await Promise.all([
    import("../shelf-full.js"),
    import("../shelf-lists.js"),
  ]);
  closeStore();
  const gone = (name: string) =>
    new Promise<void>((done) => {
      const asked = indexedDB.deleteDatabase(name);
      asked.onsuccess = asked.onerror = asked.onblocked = () => done();
    });
  await Promise.all([DATABASE, DEMO_DATABASE].map(gone));
  localStorage.clear();
  location.replace("/");
}
