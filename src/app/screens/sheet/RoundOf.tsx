import type { Vehicle } from "../../../records/index.js";
import { book, listed } from "../../fleet.js";
import { road } from "../../parts/icons.js";
import { WayKey } from "../../parts/keys.js";
import { go } from "../../router.js";
import { core } from "../../words/core.js";
import { sheetWords } from "../../words/sheet.js";
import { typeIn } from "../edit/typing.js";
import { roundSum } from "../rounds/sum.js";

/** The usual round: one of the yard's, or none. */
export function RoundOf({ vehicle }: { vehicle: Vehicle }) {
  const words = sheetWords.now();
  const rounds = listed(book.value, "round").filter((round) => round.yardId === vehicle.yardId);
  const { roundId } = vehicle.usual;
  const put = (value: string | null) =>
    void typeIn("vehicle", vehicle, [{ path: "usual.roundId", value }], core.now().kept);
  const [name] = words.fields["usual.roundId"];
  return (
    <section class="ask">
      <h2>{name}</h2>
      <div class="ways bare">
        {rounds.map((round) => (
          <WayKey
            key={round.id}
            icon={road}
            title={round.name}
            sub={roundSum(round)}
            main={round.id === roundId}
            onPress={() => put(round.id === roundId ? null : round.id)}
          />
        ))}
        <WayKey icon={road} title={words.sums.noRound} main={roundId === null} onPress={() => put(null)} />
        <WayKey icon={road} title={words.newRound} onPress={() => go("round/new")} />
      </div>
    </section>
  );
}
