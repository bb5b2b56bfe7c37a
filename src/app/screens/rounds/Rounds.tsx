import "../edit/edit.css";
import type { Round, Yard } from "../../../records/index.js";
import { book, listed, newId, vehicles } from "../../fleet.js";
import { Icon } from "../../parts/Icon.js";
import { road } from "../../parts/icons.js";
import { Key, WayKey } from "../../parts/keys.js";
import { Page } from "../../parts/Page.js";
import { go } from "../../router.js";
import { editWords } from "../../words/edit.js";
import { joined } from "../../words/format.js";
import { roundsWords } from "../../words/rounds.js";
import { plus } from "../edit/drawings.js";
import { yardHere } from "../edit/yard-here.js";
import { draftOf, setDraft, unkeptRounds } from "./drafts.js";
import { newRound } from "./new-parts.js";
import { roundSum } from "./sum.js";

export const words = [editWords, roundsWords];

/** All rounds of the yard. */
export function Screen() {
  const words = roundsWords.now();
  const yard = yardHere();
  const rounds = listed(book.value, "round").filter((round) => round.yardId === yard?.id);
  const fresh = yard ? unkeptRounds(yard.id) : [];
  return (
    <Page title={words.title} sub={yard?.name ?? ""} place="vehicles" above="vehicles" narrow>
      {rounds.length + fresh.length === 0 && (
        <div class="empty">
          <Icon of={road} size={72} />
          <p>{words.none}</p>
        </div>
      )}
      <div class="ways spaced">
        {[...rounds, ...fresh].map((round) => (
          <RoundKey key={round.id} round={round} />
        ))}
        {yard && (
          <Key kind="way main" onPress={() => go(`round/${startRound(yard)}`)}>
            <Icon of={plus} size={26} />
            <span class="what">
              <b>{words.newRound}</b>
            </span>
          </Key>
        )}
      </div>
    </Page>
  );
}

function RoundKey({ round }: { round: Round }) {
  const words = roundsWords.now();
  const draft = draftOf(round.id);
  const shown = draft ?? round;
  const users = vehicles.value.filter((vehicle) => vehicle.usual.roundId === round.id).map((vehicle) => vehicle.plate);
  const used = users.length === 0 ? words.nobody : words.usedBy(shortList(users));
  return (
    <WayKey
      icon={road}
      title={shown.name}
      sub={`${roundSum(shown)}. ${used}`}
      {...(draft ? { best: words.notKept } : {})}
      onPress={() => go(`round/${round.id}`)}
    />
  );
}

const SHOWN = 5;
const shortList = (plates: readonly string[]): string =>
  plates.length <= SHOWN ? joined(...plates) : `${joined(...plates.slice(0, SHOWN))} +${plates.length - SHOWN}`;

/** Id of a new round, which lies as a draft until it is kept. */
export function startRound(yard: Yard): string {
  const words = roundsWords.now();
  const id = newId();
  const no = listed(book.value, "round").filter((round) => round.yardId === yard.id).length + 1;
  setDraft(newRound({ id, yardId: yard.id, name: words.newName(no), stop: words.stop }));
  return id;
}
