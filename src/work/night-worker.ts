import type { NightReply } from "./night-call.js";
import { type NightAsk, planYard } from "./night-calls.js";

const reply = (message: NightReply): void => postMessage(message);

addEventListener("message", ({ data }) => {
  try {
    const result = planYard(data as NightAsk, {
      onShare: (share) => reply({ share }),
      onBetter: (better) => reply({ better }),
    });
    reply({ result });
  } catch (bug) {
    reply({ broke: bug instanceof Error ? (bug.stack ?? bug.message) : String(bug) });
  }
});
