import type { Problem } from "../../units/outcome.js";

/** Name of an element with its namespace address ("" for none). */
export interface XmlName {
  readonly local: string;
  readonly space: string;
}

export interface XmlHandler {
  readonly open: (name: XmlName, attribute: (local: string) => string | undefined) => void;
  /** Decoded text or CDATA; may come in several pieces. */
  readonly text: (value: string) => void;
  readonly close: (name: XmlName) => void;
}

export interface XmlScanner {
  /** Takes the next piece of the file; a problem ends the reading for good. */
  readonly push: (piece: string) => Problem | null;
  /** Says that nothing more comes. */
  readonly end: () => Problem | null;
  /** Line of the last element taken, from 1. */
  readonly line: () => number;
}

/** Deeper nesting than this is no file about a road. */
const MOST_DEPTH = 64;
/** A single tag, comment or text longer than this is refused. */
const MOST_TOKEN = 1 << 20;
const MOST_ATTRIBUTES = 64;

const NAME = /[^\s=/>"'<&!?]+/y;
const ATTRIBUTE = /\s+([^\s=/>"'<&]+)\s*=\s*(?:"([^"<]*)"|'([^'<]*)')/y;
const NOT_XML_CHARACTER = /[^\t\n\r -\ufffd]/;
const NAMED: Readonly<Record<string, string>> = { lt: "<", gt: ">", amp: "&", quot: '"', apos: "'" };

interface Scope {
  readonly spaces: ReadonlyMap<string, string>;
  readonly names: Map<string, XmlName>;
}
interface Open {
  readonly raw: string;
  readonly name: XmlName;
  readonly scope: Scope;
}

/**
 * Reads XML 1.0 piece by piece without building a tree. Namespaces are resolved; a DOCTYPE and every entity but the five of XML and
 * character numbers are refused, so nothing can be pulled in or blown up. Source: W3C XML 1.0 (fifth edition), Namespaces in XML 1.0.
 */
export function xmlScanner(handler: XmlHandler): XmlScanner {
  const stack: Open[] = [];
  const top: Scope = { spaces: new Map([["xml", "http://www.w3.org/XML/1998/namespace"]]), names: new Map() };
  let rest = "";
  let line = 1;
  let seenRoot = false;
  let started = false;
  let problem: Problem | null = null;

  const refuse = (code: string, atLine = line): -1 => {
    problem ??= { code, where: `line.${atLine}`, figures: { line: atLine } };
    return -1;
  };

  const readText = (text: string, from: number, to: number): number => {
    const raw = text.slice(from, to);
    if (stack.length === 0) return raw.trim() === "" ? to : refuse(seenRoot ? "xmlAfterEnd" : "xmlNotXml");
    const value = decoded(raw);
    if (value === null) return refuse("xmlEntity");
    handler.text(value);
    return to;
  };

  const openTag = (text: string, from: number, to: number): number => {
    const raw = matchAt(NAME, text, from + 1, to);
    if (raw === null) return refuse("xmlBadTag");
    if (stack.length === 0 && seenRoot) return refuse("xmlAfterEnd");
    if (stack.length >= MOST_DEPTH) return refuse("xmlTooDeep");
    const alone = text.charCodeAt(to - 1) === 47;
    const attributes = readAttributes(text, from + 1 + raw.length, alone ? to - 1 : to);
    if (typeof attributes === "string") return refuse(attributes);
    const scope = scopeOf(attributes, stack[stack.length - 1]?.scope ?? top);
    const name = scope && nameOf(raw, scope);
    if (!scope || !name) return refuse("xmlPrefix");
    seenRoot = true;
    handler.open(name, (local) => attributes.get(local));
    if (alone) handler.close(name);
    else stack.push({ raw, name, scope });
    return to + 1;
  };

  const closeTag = (text: string, from: number, to: number): number => {
    const open = stack.pop();
    if (!open || text.slice(from + 2, to).trimEnd() !== open.raw) return refuse("xmlMismatch");
    handler.close(open.name);
    return to + 1;
  };

  const cdata = (text: string, from: number, to: number): number => {
    if (stack.length === 0) return refuse("xmlNotXml");
    handler.text(text.slice(from + 9, to));
    return to + 3;
  };

  /** Index after the markup at `at`, `at` itself when more of the file is needed, -1 when refused. */
  const readMarkup = (text: string, at: number): number => {
    const second = text.charCodeAt(at + 1);
    if (Number.isNaN(second)) return at;
    if (second === 33) return readDeclaration(text, at);
    const end = second === 63 ? text.indexOf("?>", at) : tagEnd(text, at);
    if (end < 0) return at;
    if (second === 63) return end + 2;
    return second === 47 ? closeTag(text, at, end) : openTag(text, at, end);
  };

  const readDeclaration = (text: string, at: number): number => {
    if (text.startsWith("<!--", at)) return after(text, "-->", at + 4, at);
    if (text.startsWith("<![CDATA[", at)) {
      const end = text.indexOf("]]>", at + 9);
      return end < 0 ? at : cdata(text, at, end);
    }
    const seen = text.slice(at, at + 9).toUpperCase();
    if ("<![CDATA[".startsWith(seen) || "<!--".startsWith(seen)) return at;
    if (seen === "<!DOCTYPE") return refuse("xmlDoctype");
    return "<!DOCTYPE".startsWith(seen) ? at : refuse("xmlBadTag");
  };

  const step = (text: string, at: number, last: boolean): number => {
    if (text.charCodeAt(at) === 60) return readMarkup(text, at);
    const next = text.indexOf("<", at);
    if (next < 0 && !last) return at;
    return readText(text, at, next < 0 ? text.length : next);
  };

  const take = (piece: string, last: boolean): Problem | null => {
    const text = rest + piece;
    const odd = text.search(NOT_XML_CHARACTER);
    if (odd >= 0) refuse("xmlBinary", line + newlines(text, 0, odd));
    let at = 0;
    while (problem === null && at < text.length) {
      const next = step(text, at, last);
      if (next <= at) break;
      line += newlines(text, at, next);
      at = next;
    }
    rest = text.slice(at);
    if (rest.length > MOST_TOKEN) refuse("xmlTooLong");
    return problem;
  };

  return {
    push: (piece) => {
      const clean = started || !piece.startsWith("\ufeff") ? piece : piece.slice(1);
      started ||= piece !== "";
      return problem ?? take(clean, false);
    },
    end: () => {
      if (problem === null) take("", true);
      if (problem === null && !seenRoot && rest.trim() === "") refuse("xmlEmpty");
      if (problem === null && (stack.length > 0 || rest !== "")) refuse("xmlCutOff");
      return problem;
    },
    line: () => line,
  };
}

function matchAt(pattern: RegExp, text: string, from: number, to: number): string | null {
  pattern.lastIndex = from;
  const found = pattern.exec(text)?.[0];
  return found === undefined || from + found.length > to ? null : found;
}

function after(text: string, mark: string, from: number, ifNone: number): number {
  const end = text.indexOf(mark, from);
  return end < 0 ? ifNone : end + mark.length;
}

/** Index of the `>` that ends a tag, one inside quotes being none; -1 when it has not come yet. */
function tagEnd(text: string, from: number): number {
  let quote = 0;
  for (let i = from + 1; i < text.length; i++) {
    const c = text.charCodeAt(i);
    if (quote !== 0) {
      if (c === quote) quote = 0;
    } else if (c === 62) return i;
    else if (c === 34 || c === 39) quote = c;
  }
  return -1;
}

const NO_ATTRIBUTES: ReadonlyMap<string, string> = new Map();

/** The attributes of a tag, or the code of what is wrong with them. */
function readAttributes(text: string, from: number, to: number): ReadonlyMap<string, string> | string {
  if (from === to) return NO_ATTRIBUTES;
  const found = new Map<string, string>();
  let at = from;
  while (at < to) {
    ATTRIBUTE.lastIndex = at;
    const match = ATTRIBUTE.exec(text);
    if (match === null || ATTRIBUTE.lastIndex > to) return text.slice(at, to).trim() === "" ? found : "xmlBadTag";
    const value = decoded(match[2] ?? match[3] ?? "");
    if (value === null) return "xmlEntity";
    if (found.has(match[1] as string) || found.size >= MOST_ATTRIBUTES) return "xmlBadTag";
    found.set(match[1] as string, value);
    at = ATTRIBUTE.lastIndex;
  }
  return found;
}

/** The names known inside an element, or null for a prefix bound to nothing. */
function scopeOf(attributes: ReadonlyMap<string, string>, outer: Scope): Scope | null {
  let spaces: Map<string, string> | null = null;
  for (const [name, value] of attributes) {
    if (name !== "xmlns" && !name.startsWith("xmlns:")) continue;
    if (name !== "xmlns" && value === "") return null;
    spaces ??= new Map(outer.spaces);
    spaces.set(name === "xmlns" ? "" : name.slice(6), value);
  }
  return spaces ? { spaces, names: new Map() } : outer;
}

function nameOf(raw: string, scope: Scope): XmlName | null {
  const known = scope.names.get(raw);
  if (known) return known;
  const colon = raw.indexOf(":");
  const space = scope.spaces.get(colon < 0 ? "" : raw.slice(0, colon)) ?? (colon < 0 ? "" : null);
  const local = raw.slice(colon + 1);
  if (space === null || local === "" || local.includes(":")) return null;
  const name = { local, space };
  if (scope.names.size < 1000) scope.names.set(raw, name);
  return name;
}

/** Text with its character references replaced, or null for a reference that XML itself does not know. */
function decoded(raw: string): string | null {
  if (!raw.includes("&")) return raw;
  let known = true;
  const value = raw.replace(/&(?:#([0-9]{1,7})|#x([0-9a-fA-F]{1,6})|([a-z]{2,4}));|&/g, (_all, ten, hex, name) => {
    const code = ten !== undefined ? Number(ten) : hex !== undefined ? Number.parseInt(hex, 16) : Number.NaN;
    const character = name !== undefined ? NAMED[name] : isCharacter(code) ? String.fromCodePoint(code) : undefined;
    known &&= character !== undefined;
    return character ?? "";
  });
  return known ? value : null;
}

const isCharacter = (code: number): boolean =>
  code === 9 ||
  code === 10 ||
  code === 13 ||
  (code >= 32 && code <= 0xd7ff) ||
  (code >= 0xe000 && code <= 0xfffd) ||
  (code >= 0x10000 && code <= 0x10ffff);

function newlines(text: string, from: number, to: number): number {
  let count = 0;
  for (let i = from; i < to; i++) if (text.charCodeAt(i) === 10) count++;
  return count;
}
