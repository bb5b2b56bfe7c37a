import { readFileSync } from "node:fs";
import type { Problem } from "../units/outcome.js";

export interface Args {
  readonly files: readonly string[];
  readonly options: ReadonlyMap<string, string>;
}

/** `--name value`, `--flag`, and the rest as files. Flags named in `flags` take no value; a name in neither list is refused. */
export function argsOf(argv: readonly string[], flags: readonly string[], names: readonly string[]): Args {
  const files: string[] = [];
  const options = new Map<string, string>();
  for (let i = 0; i < argv.length; i++) {
    const word = argv[i] as string;
    if (!word.startsWith("--")) files.push(word);
    else if (flags.includes(word.slice(2))) options.set(word.slice(2), "yes");
    else if (names.includes(word.slice(2))) options.set(word.slice(2), argv[++i] ?? "");
    else refuse(`There is no option ${word}. Options: ${[...flags, ...names].map((name) => `--${name}`).join(", ")}.`);
  }
  return { files, options };
}

/** Says what is wrong, one place a line, and ends with exit code 2. */
export function refuse(sentence: string, problems: readonly Problem[] = []): never {
  console.error(sentence);
  for (const { where, code, figures } of problems) {
    const detail = Object.entries(figures ?? {}).map(([name, value]) => `${name} ${value}`);
    console.error(`  ${where === "" ? "(whole file)" : where}: ${[code, ...detail].join(", ")}`);
  }
  process.exit(2);
}

/** Text of a file, or a refusal that names it. */
export function textOf(file: string | undefined, usage: string): string {
  if (file === undefined) refuse(usage);
  try {
    return readFileSync(file, "utf8");
  } catch {
    return refuse(`Cannot read ${file}. Is the name right, and may you read it?`);
  }
}

/** An instant written as ISO 8601 with its offset, as 2027-02-10T04:10:00Z. */
export function instantOf(text: string): number {
  const utcMs = /[zZ]|[+-]\d\d:?\d\d$/.test(text) ? Date.parse(text) : Number.NaN;
  if (!Number.isFinite(utcMs))
    refuse(`"${text}" is not an instant. Write it with its offset, as 2027-02-10T04:10:00Z.`);
  return utcMs;
}
