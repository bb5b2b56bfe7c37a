import { writeFileSync } from "node:fs";
import { fleetJsonSchema } from "../records/json-schema.js";

// npm run schema: writes the JSON Schema of the fleet file from the schemas that the app reads with
const path = "shared/fleet-file.schema.json";
writeFileSync(path, `${JSON.stringify(fleetJsonSchema(), null, 1)}\n`);
console.log(`${path} written`);
