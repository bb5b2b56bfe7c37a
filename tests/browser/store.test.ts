import { spawn } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, chromium, type Page } from "playwright-core";
import { build } from "vite";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Entry } from "../../src/records/index.js";
import type { Change, Store } from "../../src/store/index.js";
import { examples } from "../records/examples.js";
import { openBrowser, ROOT, serve } from "./open.mjs";

declare global {
  interface Window {
    readonly store: Store;
    readonly heard: readonly Change[];
  }
}

const OUT = join(ROOT, "node_modules", ".cache", "store-page");
let site: Awaited<ReturnType<typeof serve>>;
beforeAll(async () => {
  await build({
    configFile: false,
    logLevel: "warn",
    root: join(ROOT, "tests", "browser", "store"),
    publicDir: false,
    build: { outDir: OUT, emptyOutDir: true, target: "es2022", modulePreload: { polyfill: false } },
  });
  site = await serve(OUT);
});
afterAll(() => site.close());

const goTo = async (page: Page): Promise<Page> => {
  await page.goto(site.origin);
  await page.waitForFunction(() => document.title === "ready");
  return page;
};
const entryOf = (vehicleId: string, n: number): Entry => {
  const date = new Date(Date.UTC(2024, 0, 1) + n * 86_400_000).toISOString().slice(0, 10);
  return { ...examples.entry, id: `${vehicleId}/${date}/1`, vehicleId, date, km: n % 100 };
};

describe("in a real browser", () => {
  test("records come back after a reload, by history too, and two tabs hear of each other", async () => {
    const { context, page, complaints, close } = await openBrowser();
    try {
      await goTo(page);
      const other = await goTo(await context.newPage());
      const entries = Array.from({ length: 400 }, (_, n) => entryOf(`v${n % 4}`, Math.floor(n / 4)));
      const kept = await page.evaluate(async (records) => {
        const written = await window.store.write(records.map((put) => ({ kind: "entry", put }) as const));
        return [written, await window.store.put("vehicle", records[0] as never)];
      }, entries);
      expect(kept[0]).toEqual({ ok: true, value: null });
      expect(kept[1]).toMatchObject({ ok: false }); // an entry is no vehicle
      await other.waitForFunction(() => window.heard.length > 0);
      await page.reload();
      await page.waitForFunction(() => document.title === "ready");
      const seen = await page.evaluate(() => window.store.listEntries("v2", "2024-01-10", "2024-01-12"));
      expect(seen.ok && seen.value.records.map(({ date }) => date)).toEqual(["2024-01-10", "2024-01-11", "2024-01-12"]);
      const edits = await Promise.all([
        page.evaluate((id) => window.store.edit("entry", id, { km: 77 }), entries[0]?.id ?? ""),
        other.evaluate((id) => window.store.edit("entry", id, { trips: 9 }), entries[0]?.id ?? ""),
      ]);
      expect(edits.map((edit) => edit.ok)).toEqual([true, true]);
      const both = await other.evaluate((id) => window.store.get("entry", id), entries[0]?.id ?? "");
      expect(both).toMatchObject({ ok: true, value: { km: 77, trips: 9 } });
      expect(complaints).toEqual([]);
    } finally {
      await close();
    }
  });

  // Process kill only: lost power cannot be tried here; strict writes are what is meant to hold then
  test("every save that was acknowledged is there after the browser is killed", async () => {
    const profile = mkdtempSync(join(tmpdir(), "noonplug-kill-"));
    try {
      let acknowledged = 0;
      for (let round = 0; round < 3; round++) {
        const { page, kill } = await startRaw(profile);
        await goTo(page);
        const saved = page.evaluate(
          async ({ first, entry }) => {
            for (let n = first; ; n++) {
              const id = `${entry.id}/${n}`;
              const outcome = await window.store.put("entry", { ...entry, id });
              if (outcome.ok) document.title = String(n + 1);
            }
          },
          { first: acknowledged, entry: examples.entry },
        );
        saved.catch(() => {}); // ends with the browser
        await page.waitForFunction((least) => Number(document.title) >= least, acknowledged + 40);
        acknowledged = Number(await page.title());
        await kill();
      }
      const { page, kill } = await startRaw(profile);
      await goTo(page);
      const seen = await page.evaluate(() => window.store.list("entry"));
      await kill();
      if (!seen.ok) throw new Error(JSON.stringify(seen.problems));
      expect(seen.value.setAside).toBe(0);
      const ids = new Set(seen.value.records.map(({ id }) => id));
      const lost = Array.from({ length: acknowledged }, (_, n) => `${examples.entry.id}/${n}`).filter(
        (id) => !ids.has(id),
      );
      expect(lost).toEqual([]);
      expect(acknowledged).toBeGreaterThanOrEqual(120);
    } finally {
      rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
    }
  });
});

/** A browser started by hand in a process group of its own, so that it can be killed as a phone's system kills it. */
async function startRaw(profile: string): Promise<{ page: Page; kill: () => Promise<void> }> {
  const portFile = join(profile, "DevToolsActivePort");
  rmSync(portFile, { force: true });
  const root = process.getuid?.() === 0 ? ["--no-sandbox"] : [];
  const flags = [
    "--headless=new",
    "--disable-gpu",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-quic",
  ];
  const child = spawn(
    process.env.CHROMIUM ?? "/usr/bin/chromium",
    [...root, ...flags, "--remote-debugging-port=0", `--user-data-dir=${profile}`, "about:blank"],
    { detached: true, stdio: "ignore" },
  );
  const gone = new Promise<void>((done) => child.once("exit", () => done()));
  await expect
    .poll(() => existsSync(portFile) && readFileSync(portFile, "utf8").includes("\n"), { timeout: 30_000 })
    .toBe(true);
  const [port] = readFileSync(portFile, "utf8").split("\n");
  const browser: Browser = await chromium.connectOverCDP(`http://127.0.0.1:${port}`);
  const page = await (browser.contexts()[0] ?? (await browser.newContext())).newPage();
  const kill = async () => {
    if (child.pid) process.kill(-child.pid, "SIGKILL");
    await gone;
    await browser.close().catch(() => {});
  };
  return { page, kill };
}
