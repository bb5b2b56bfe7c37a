import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Page } from "playwright-core";
import { expect } from "vitest";
import { crowdedTargets, cutOff, smallTargets, smallText } from "./look-over.mjs";
import { settled } from "./visits.mjs";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
interface AxeResult {
  readonly violations: readonly { readonly id: string; readonly nodes: readonly { readonly html: string }[] }[];
}

/** What axe-core finds by the success criteria of WCAG 2.2, levels A and AA. */
async function axe(page: Page): Promise<string[]> {
  await page.evaluate(AXE); // the content security policy refuses script tags
  return page.evaluate(async () => {
    const { axe } = window as unknown as { axe: { run: (options: object) => Promise<AxeResult> } };
    const seen = await axe.run({
      runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"],
    });
    const found = seen.violations.flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.html.slice(0, 160)}`));
    // "14 °C" on the key of a value and "14 degrees" for the voice are one name, though axe takes them for two.
    return found.filter((told) => !/^label-content-name-mismatch: <button[^>]* class="key value/.test(told));
  });
}

/** A screen can be read, pressed and heard as it stands. */
export async function glance(page: Page): Promise<void> {
  await page.evaluate(() => document.querySelector(".mid")?.scrollTo(0, 0)); // what slides under a pinned head is not seen
  await settled(page);
  expect(await page.evaluate(cutOff)).toEqual([]);
  expect(await page.evaluate(smallText)).toEqual([]);
  expect(await page.evaluate(smallTargets)).toEqual([]);
  // under a sheet from below lie keys that cannot be pressed
  if ((await page.locator("dialog[open]").count()) === 0) expect(await page.evaluate(crowdedTargets)).toEqual([]);
  expect(await axe(page)).toEqual([]);
}

/** One step to a path of the app, without loading it anew. */
export async function step(page: Page, path: string): Promise<void> {
  await page.evaluate((to) => {
    history.pushState({ depth: 1 }, "", to);
    dispatchEvent(new PopStateEvent("popstate"));
  }, `/?${path}`);
  await settled(page);
}

/** Opens everything that is folded. */
export const unfold = (page: Page): Promise<void> =>
  page.evaluate(() => {
    for (const folded of document.querySelectorAll("details")) folded.open = true;
  });

/** How the phone shows things, as most people have it. */
export const PLAIN = { language: "en", digits: null, look: "day", textSize: 1 } as const;
