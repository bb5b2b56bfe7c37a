// Screenshots of every screen, from the yard that is not real: node tests/run.mjs shots [FOLDER]
// Writes the README's picture too when the folder is left out. The clock stands still on an invented afternoon, so that two runs match.
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { DIST, openBrowser, ROOT, serve } from "./open.mjs";
import { screenNames, setting, settled, startDemo, visit } from "./visits.mjs";

const folder = process.argv[2] ?? join(ROOT, "node_modules", ".cache", "shots");
mkdirSync(folder, { recursive: true });
const NOW = new Date("2027-02-10T13:40:00Z");
const SPOKEN = ["hi", "bn", "ur", "sw", "es"];

const server = await serve(DIST);
const { page, close, complaints } = await openBrowser({ scale: 2, zone: "Africa/Nairobi" });
const shoot = (name) => page.screenshot({ path: join(folder, `${name}.png`) });
try {
  await page.clock.setFixedTime(NOW);
  await startDemo(page, server.origin);
  for (const name of screenNames()) {
    await visit(page, server.origin, name);
    await shoot(name);
  }
  await everyState();
  for (const language of SPOKEN) {
    await setting(page, { language });
    for (const name of ["today", "start", "vehicles"]) {
      await visit(page, server.origin, name);
      await shoot(`${name}-${language}`);
    }
  }
  await setting(page, { language: "en", look: "night" });
  await visit(page, server.origin, "today");
  await shoot("today-night");
  await setting(page, { look: "day", textSize: 4 });
  await visit(page, server.origin, "today");
  await shoot("today-200");
  await setting(page, { textSize: 1 });
  await page.setViewportSize({ width: 1280, height: 800 });
  for (const name of ["vehicles", "today", "sheet", "phone"]) {
    await visit(page, server.origin, name);
    await shoot(`desk-${name}`);
  }
} finally {
  await close();
  await server.close();
}
console.log(`Screenshots are in ${folder}`);
if (complaints.length > 0) console.log(`The page complained:\n${complaints.join("\n")}`);

/** Today of one vehicle in every state that the yard holds; one of them is the README's picture. */
async function everyState() {
  for (const state of ["short", "tight", "notKnown", "enough"]) {
    await visit(page, server.origin, "vehicles");
    const row = page.locator(`.row-key.${state}`).first();
    if ((await row.count()) === 0) continue;
    await row.click();
    await page.waitForSelector(".verdict");
    await settled(page);
    await shoot(`today-${state}`);
    if (state === "enough" && !process.argv[2]) {
      await page.setViewportSize({ width: 360, height: 720 });
      await settled(page);
      await page.screenshot({ path: join(ROOT, "shared", "readme-today.png") });
      await page.setViewportSize({ width: 360, height: 640 });
    }
  }
}
