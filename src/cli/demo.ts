import { mkdirSync, writeFileSync } from "node:fs";
import { demoFleets } from "../records/demo/index.js";
import { writeFleetFile } from "../records/fleet-file.js";
import { isCivilDate } from "../units/zone.js";
import { argsOf, refuse } from "./args.js";

// npm run demo [-- --date DAY]: writes the invented fleets as fleet files, for the shell commands and as examples of the format.
const { options } = argsOf(process.argv.slice(2), [], ["date"]);
const date = options.get("date") ?? "2027-02-09";
if (!isCivilDate(date)) refuse(`"${date}" is not a day. Write it as 2027-02-10.`);
mkdirSync("shared/demo", { recursive: true });
for (const [name, fleetOn] of Object.entries(demoFleets))
  writeFileSync(`shared/demo/${name}.json`, writeFleetFile(fleetOn(date)));
console.log(`Wrote ${Object.keys(demoFleets).join(", ")} to shared/demo, as seen on the evening of ${date}.`);
