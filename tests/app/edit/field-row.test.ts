import { expect, test, vi } from "vitest";

vi.stubGlobal("localStorage", { getItem: () => null, setItem: () => undefined });
vi.stubGlobal("navigator", { languages: ["en"] });
vi.stubGlobal("document", { documentElement: { dataset: {} } });

const { valueText } = await import("../../../src/app/screens/edit/FieldRow.js");
const { editWords } = await import("../../../src/app/words/edit.js");
await editWords.load();

test("the date a set was put in says its year", () => {
  const installed = { kind: "date", path: "battery.installedDate", name: "installed" } as const;
  expect(valueText(installed, "2021-02-10")).toMatch(/10 Feb.* 2021/);
});
