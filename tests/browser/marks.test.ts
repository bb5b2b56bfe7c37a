import { afterAll, beforeAll, expect, test } from "vitest";
import { openBrowser, serve } from "./open.mjs";
import { buildSpecimen } from "./specimen.mjs";

type Served = Awaited<ReturnType<typeof serve>>;
type Opened = Awaited<ReturnType<typeof openBrowser>>;
let server: Served;
let opened: Opened;

beforeAll(async () => {
  server = await serve(await buildSpecimen());
  opened = await openBrowser({ width: 800, touch: false });
});
afterAll(async () => {
  await opened?.close();
  await server?.close();
});

const STATES = ["enough", "tight", "short", "notKnown", "done", "off"];

/** Grey values of the marks of one size, as a screen shows them: luma of ITU-R BT.601. */
async function greys(size: number): Promise<number[][]> {
  const { page } = opened;
  await page.goto(`${server.origin}/?parts`);
  await page.waitForSelector(`#marks-${size}`);
  const found: number[][] = [];
  for (const state of STATES) {
    const shot = await page.locator(`#marks-${size} svg[aria-label="${state}"]`).screenshot();
    found.push(
      await page.evaluate(
        async (picture) => {
          const image = new Image();
          image.src = picture;
          await image.decode();
          const canvas = document.createElement("canvas");
          canvas.width = image.width;
          canvas.height = image.height;
          const pen = canvas.getContext("2d");
          if (!pen) throw new Error("Nothing can be drawn here");
          pen.drawImage(image, 0, 0);
          const { data } = pen.getImageData(0, 0, image.width, image.height);
          return Array.from({ length: data.length / 4 }, (_, i) => {
            const [r = 0, g = 0, b = 0] = [data[4 * i], data[4 * i + 1], data[4 * i + 2]];
            return (0.299 * r + 0.587 * g + 0.114 * b) / 255;
          });
        },
        `data:image/png;base64,${shot.toString("base64")}`,
      ),
    );
  }
  return found;
}

test.each([24, 40])("the marks of %i px differ from each other without any colour", async (size) => {
  const all = await greys(size);
  all.forEach((one, i) => {
    all.slice(i + 1).forEach((other, k) => {
      const inked = one.filter((grey, at) => Math.abs(grey - (other[at] ?? 0)) > 0.25).length;
      // A twelfth of the area, about 48 of 576 points at 24 px, is far more than two drawings of one state would differ by.
      expect(inked / one.length, `${STATES[i]} and ${STATES[i + 1 + k]}`).toBeGreaterThan(1 / 12);
    });
  });
});
