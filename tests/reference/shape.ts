/** The part of JSON Schema (draft 2020-12) that the tables' own schema uses; an unknown keyword throws, so none passes unread. */
type Schema = Readonly<Record<string, unknown>>;
type Rule = (rule: unknown, value: unknown, root: Schema, schema: Schema) => readonly string[];

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null && !Array.isArray(value);
const kindOf = (value: unknown): string => (Array.isArray(value) ? "array" : value === null ? "null" : typeof value);
const size = (value: unknown): number => (isObject(value) ? Object.keys(value).length : (value as string).length);
const under = (place: string, says: readonly string[]): string[] => says.map((each) => `${place}: ${each}`);
const fits = (schema: unknown, value: unknown, root: Schema): boolean => misshapen(schema, value, root).length === 0;

function refer(ref: unknown, root: Schema): unknown {
  return String(ref)
    .split("/")
    .slice(1)
    .reduce<unknown>((at, name) => (at as Schema)[name], root);
}

const PASSED_OVER = new Set(["$schema", "$id", "$defs", "title", "description"]);
const RULES: Readonly<Record<string, Rule>> = {
  $ref: (ref, value, root) => misshapen(refer(ref, root), value, root),
  type: (type, value) => (kindOf(value) === type ? [] : [`is ${kindOf(value)}, not ${type}`]),
  const: (only, value) => (value === only ? [] : [`is not ${JSON.stringify(only)}`]),
  pattern: (text, value) =>
    typeof value !== "string" || new RegExp(String(text)).test(value) ? [] : [`"${value}" does not match ${text}`],
  minimum: (least, value) =>
    typeof value !== "number" || value >= Number(least) ? [] : [`${value} is below ${least}`],
  minLength: (least, value) => (typeof value !== "string" || size(value) >= Number(least) ? [] : ["is too short"]),
  minItems: (least, value) => (!Array.isArray(value) || value.length >= Number(least) ? [] : ["has too few items"]),
  minProperties: (least, value) => (!isObject(value) || size(value) >= Number(least) ? [] : ["has too few fields"]),
  uniqueItems: (_rule, value) =>
    !Array.isArray(value) || new Set(value.map((v) => JSON.stringify(v))).size === value.length
      ? []
      : ["repeats an item"],
  items: (schema, value, root) =>
    Array.isArray(value) ? value.flatMap((each, i) => under(String(i), misshapen(schema, each, root))) : [],
  required: (names, value) =>
    isObject(value) ? (names as string[]).filter((name) => !(name in value)).map((name) => `lacks ${name}`) : [],
  properties: (schemas, value, root) =>
    isObject(value)
      ? Object.entries(schemas as Schema).flatMap(([name, schema]) =>
          name in value ? under(name, misshapen(schema, value[name], root)) : [],
        )
      : [],
  additionalProperties: (rule, value, root, schema) => {
    if (!isObject(value)) return [];
    const more = Object.keys(value).filter((name) => !(name in ((schema.properties as Schema | undefined) ?? {})));
    if (rule === false) return more.map((name) => `has an unknown field ${name}`);
    return more.flatMap((name) => under(name, misshapen(rule, value[name], root)));
  },
  propertyNames: (rule, value, root) =>
    isObject(value) ? Object.keys(value).flatMap((name) => misshapen(rule, name, root)) : [],
  oneOf: (list, value, root) => {
    const count = (list as unknown[]).filter((each) => fits(each, value, root)).length;
    return count === 1 ? [] : [`fits ${count} of the allowed forms, not one`];
  },
  anyOf: (list, value, root) => ((list as unknown[]).some((each) => fits(each, value, root)) ? [] : ["fits no form"]),
  not: (schema, value, root) => (fits(schema, value, root) ? ["has a forbidden form"] : []),
};

/** What is wrong with a value by a schema; empty when it fits. */
export function misshapen(schema: unknown, value: unknown, root: Schema = schema as Schema): readonly string[] {
  if (typeof schema === "boolean") return schema ? [] : ["is not allowed"];
  return Object.entries(schema as Schema).flatMap(([keyword, rule]) => {
    if (PASSED_OVER.has(keyword)) return [];
    const check = RULES[keyword];
    if (!check) throw new Error(`The schema uses "${keyword}", which this reader does not know.`);
    return check(rule, value, root, schema as Schema);
  });
}
