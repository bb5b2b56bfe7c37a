// Renders the PNG icons of the app from public/icon.svg with Chromium: node src/tools/icons.mjs. Kept with the project, run by hand when the mark changes.
import { readFileSync } from "node:fs";
import { chromium } from "playwright-core";
import { at, ensureBrowser } from "./ready.mjs";

const mark = readFileSync(at("public/icon.svg"), "utf8");
const browser = await chromium.launch({
  executablePath: ensureBrowser(),
  args: [...(process.getuid?.() === 0 ? ["--no-sandbox"] : []), "--disable-gpu"],
});
const page = await browser.newPage();

/** A maskable icon keeps its drawing inside the middle four fifths (W3C Web Application Manifest, safe zone). */
for (const [name, px, share] of [
  ["icon-192", 192, 1],
  ["icon-512", 512, 1],
  ["icon-maskable-512", 512, 0.8],
]) {
  await page.setViewportSize({ width: px, height: px });
  const side = px * share;
  const edge = 50 + (56 / 96 - 0.5) * 100 * share; // sky and ground go on to the rim
  await page.setContent(
    `<body style="margin:0;background:linear-gradient(#ffb41f ${edge}%,#12191d ${edge}%);display:grid;place-items:center;height:100vh"><div style="width:${side}px;height:${side}px">${mark.replace("<svg", '<svg width="100%" height="100%"')}</div></body>`,
  );
  await page.screenshot({ path: at(`public/${name}.png`) });
}
await browser.close();
