// node tests/bench/start.mjs: time from navigation to a usable answer, as medians, at a slow network and a slowed-down processor.
// A meter, not a test: shared machines are noisy. "Usable" = stored records read, the worker has answered, the verdict and the strip stand.
import { ensureBrowser } from "../../src/tools/ready.mjs";
import { DIST, openBrowser, serve } from "../browser/open.mjs";

const RUNS = Number(process.argv[2] ?? 5);
const SLOW = { offline: false, latency: 562.5, downloadThroughput: 184_320, uploadThroughput: 84_375 };
const CPU_SLOWDOWN = 4;

process.env.CHROMIUM ??= ensureBrowser();

const usable = (page) =>
  page.waitForFunction(
    () =>
      document.querySelector(".strip-room svg") !== null &&
      /Enough|Tight|Short|Not known/.test(document.body.textContent ?? ""),
    null,
    { timeout: 30_000, polling: 10 },
  );

async function timed(page, url) {
  await page.goto("about:blank");
  const began = performance.now();
  await page.goto(url, { waitUntil: "commit" });
  await usable(page);
  return performance.now() - began;
}

const median = (values) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;
const cold = [];
const warm = [];
for (let run = 0; run < RUNS; run++) {
  let server = await serve(DIST);
  const { port, origin: url } = server;
  const { page, context, close } = await openBrowser();
  await page.goto(url);
  await page.getByText("Look around").click();
  await page.getByText("Not a real yard").waitFor();
  await page.goto(`${url}/?today`);
  await usable(page);
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null); // the offline set is whole then
  const cdp = await context.newCDPSession(page);
  await cdp.send("Network.enable");
  await cdp.send("Emulation.setCPUThrottlingRate", { rate: CPU_SLOWDOWN });
  await server.close();
  warm.push(await timed(page, `${url}/?today`));
  server = await serve(DIST, port);
  await cdp.send("Storage.clearDataForOrigin", { origin: url, storageTypes: "service_workers,cache_storage" });
  await cdp.send("Network.clearBrowserCache");
  await cdp.send("Network.emulateNetworkConditions", SLOW);
  cold.push(await timed(page, `${url}/?today`));
  await close();
  await server.close();
}
const show = (name, values) =>
  console.log(
    `${name}: median ${Math.round(median(values))} ms of ${values
      .map(Math.round)
      .sort((a, b) => a - b)
      .join(", ")}`,
  );
show(`usable, cold, 562 ms and 1.44 Mbit/s, processor x${CPU_SLOWDOWN} slower`, cold);
show(`usable, network gone, processor x${CPU_SLOWDOWN} slower`, warm);
