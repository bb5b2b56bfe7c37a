import fc from "fast-check";
import { fleetJsonSchema } from "../../src/records/json-schema.js";

/** The part of JSON Schema that the fleet file's schema uses. */
export interface Shape {
  readonly type?: string | readonly string[];
  readonly const?: unknown;
  readonly enum?: readonly unknown[];
  readonly anyOf?: readonly Shape[];
  readonly oneOf?: readonly Shape[];
  readonly properties?: Readonly<Record<string, Shape>>;
  readonly required?: readonly string[];
  readonly items?: Shape;
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly minLength?: number;
  readonly maxLength?: number;
  readonly pattern?: string;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly exclusiveMinimum?: number;
}

const DATE_PATTERN = "^\\d{4}-\\d\\d-\\d\\d$";
const day = () =>
  fc
    .integer({ min: 0, max: 36_000 })
    .map((n) => new Date(Date.UTC(2000, 0, 1) + n * 86_400_000).toISOString().slice(0, 10));

/** Values that a shape allows: what another tool might write that goes by the published schema alone. */
export function anyOfShape(shape: Shape): fc.Arbitrary<unknown> {
  if ("const" in shape) return fc.constant(shape.const);
  if (shape.enum) return fc.constantFrom(...shape.enum);
  const either = shape.anyOf ?? shape.oneOf;
  if (either) return fc.oneof(...either.map(anyOfShape));
  if (typeof shape.type === "object") return fc.oneof(...shape.type.map((type) => anyOfShape({ ...shape, type })));
  switch (shape.type) {
    case "object":
      return objectOf(shape);
    case "array":
      return listOf(shape);
    case "string":
      return textOf(shape);
    case "integer":
      return fc.integer({ min: shape.minimum ?? -1000, max: shape.maximum ?? 1000 });
    case "number":
      return numberOf(shape);
    case "boolean":
      return fc.boolean();
    case "null":
      return fc.constant(null);
    default:
      throw new Error(`a shape the generator does not know: ${JSON.stringify(shape).slice(0, 200)}`);
  }
}

function objectOf(shape: Shape): fc.Arbitrary<unknown> {
  const fields = Object.entries(shape.properties ?? {});
  const required = new Set(shape.required);
  const all = fc.record(Object.fromEntries(fields.map(([name, part]) => [name, anyOfShape(part)])), {
    requiredKeys: fields.map(([name]) => name).filter((name) => required.has(name)),
  });
  return all.map((value) => ({ ...value })); // a plain object, as JSON gives
}

const listOf = (shape: Shape): fc.Arbitrary<unknown> => {
  const minLength = shape.minItems ?? 0;
  const maxLength = Math.max(minLength, Math.min(shape.maxItems ?? 3, 3));
  return fc.array(anyOfShape(shape.items ?? {}), { minLength, maxLength });
};

function textOf(shape: Shape): fc.Arbitrary<string> {
  if (shape.pattern === DATE_PATTERN) return day();
  if (shape.pattern) return fc.stringMatching(new RegExp(shape.pattern));
  return fc.string({ minLength: shape.minLength ?? 0, maxLength: Math.min(shape.maxLength ?? 20, 20), unit: "binary" });
}

const numberOf = (shape: Shape): fc.Arbitrary<number> =>
  fc
    .double({ min: shape.minimum ?? shape.exclusiveMinimum ?? -1e6, max: shape.maximum ?? 1e6, noNaN: true })
    .filter((n) => shape.exclusiveMinimum === undefined || n > shape.exclusiveMinimum)
    .map((n) => n + 0); // JSON has no -0

/** Any fleet file that the published schema allows, with ids that may dangle. */
export const anyFleet = (): fc.Arbitrary<unknown> => anyOfShape(fleetJsonSchema() as Shape);
