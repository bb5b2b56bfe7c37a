import { beforeEach, expect, test, vi } from "vitest";

// Two windows of one phone: the same storage, each with its own page.
let kept = new Map<string, string>();
let windows: (() => void)[] = [];
const reload = vi.fn();

async function openWindow() {
  vi.resetModules();
  vi.stubGlobal("addEventListener", (name: string, heard: () => void) => name === "storage" && windows.push(heard));
  const settings = await import("../../src/app/settings.js");
  await import("../../src/app/settings-follow.js");
  return settings;
}

beforeEach(() => {
  kept = new Map();
  windows = [];
  reload.mockClear();
  vi.stubGlobal("navigator", { languages: ["en"] });
  vi.stubGlobal("document", { documentElement: { dataset: {} } });
  vi.stubGlobal("location", { reload });
  vi.stubGlobal("localStorage", {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, text: string) => kept.set(key, text),
  });
});

test("a phone that is lent out in one window is lent out in all, whatever another one changes later", async () => {
  const [one, two] = [await openWindow(), await openWindow()];
  one.set({ lent: true });
  two.set({ textSize: 3 });
  expect(two.handOver.value).toBe(true);
  expect(JSON.parse(kept.get("noonplug") ?? "{}")).toMatchObject({ lent: true, textSize: 3 });
  expect(one.settings.value.textSize).toBe(1);
  windows[0]?.();
  expect(one.settings.value).toMatchObject({ lent: true, textSize: 3 });
  expect(reload).not.toHaveBeenCalled();
});

test("where nothing can be kept a change holds for the page", async () => {
  vi.stubGlobal("localStorage", {
    getItem: () => null,
    setItem: () => {
      throw new Error("full");
    },
  });
  const { set, settings } = await openWindow();
  set({ lent: true });
  set({ textSize: 2 });
  expect(settings.value).toMatchObject({ lent: true, textSize: 2 });
});

test("a window begins anew when another one opens the yard that is not real", async () => {
  const [one] = [await openWindow(), await openWindow()];
  kept.set("noonplug", JSON.stringify({ demo: { vehicleId: null, role: "owner" } }));
  windows[0]?.();
  expect(reload).toHaveBeenCalledOnce();
  expect(one.settings.value.demo).toBeNull();
});
