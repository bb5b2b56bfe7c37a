import { type Ask, answer, type CallTable } from "./bridge.js";
import { dayCalls } from "./day-calls.js";

addEventListener("message", (event: MessageEvent<Ask<CallTable>>) => {
  void answer(dayCalls, event.data).then((reply) => postMessage(reply));
});
