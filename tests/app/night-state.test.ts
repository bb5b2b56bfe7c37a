import { expect, test, vi } from "vitest";
import type { NightWait } from "../../src/work/night-call.js";
import { examples } from "../records/examples.js";

vi.stubGlobal("localStorage", { getItem: () => null, setItem: () => undefined });
vi.stubGlobal("navigator", { languages: ["en"] });
vi.stubGlobal("document", { documentElement: { dataset: {} } });

/** A part that does not come over the network the first time, and plans nothing the next. */
let online = false;
vi.doMock("../../src/work/night-call.js", () => ({
  askNight: async (_: NightWait) => {
    if (!online) throw new TypeError("Failed to fetch dynamically imported module");
    return { ok: false, problems: [{ code: "noMeterLimit", where: "" }] };
  },
}));
const { nightOf, planTonight } = await import("../../src/app/screens/tonight/night-state.js");
const { answerBroke } = await import("../../src/app/answers.js");
const { useShelf } = await import("../../src/app/fleet.js");

test("a night whose planner did not come is told, and planned when it is asked for again", async () => {
  const { yard } = examples;
  useShelf({ write: () => Promise.reject(new Error("nothing is written here")) }, { yard: [yard] });
  planTonight(yard);
  await vi.waitFor(() => expect(String(answerBroke.value)).toContain("Failed to fetch"));
  expect(nightOf(yard.id).share).toBeNull();
  answerBroke.value = null;
  online = true;
  planTonight(yard);
  await vi.waitFor(() => expect(nightOf(yard.id)).toMatchObject({ share: null, problems: [{ code: "noMeterLimit" }] }));
  expect(answerBroke.value).toBeNull();
});
