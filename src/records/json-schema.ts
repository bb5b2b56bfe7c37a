import * as z from "zod/mini";
import { FLEET_FORMAT, FLEET_VERSION } from "./fleet.js";
import { kindNames, kinds } from "./kinds.js";

/** JSON Schema (draft 2020-12) of a fleet file of the newest version, for those who write one with other tools. */
export function fleetJsonSchema(): object {
  const lists = Object.fromEntries(
    kindNames.map((kind) => [kinds[kind].list, z.exactOptional(z.array(kinds[kind].schema()))]),
  );
  const file = z.strictObject({
    format: z.literal(FLEET_FORMAT),
    version: z.literal(FLEET_VERSION),
    title: z.string().check(z.maxLength(120)),
    invented: z.boolean(),
    ...lists,
  });
  return { title: "Noonplug fleet file", ...z.toJSONSchema(file, { io: "input" }) };
}
