/**
 * Name of the character encoding of an XML file from its first bytes (100 are plenty), as TextDecoder takes it.
 * Source: W3C XML 1.0 (fifth edition), appendix F: byte order mark first, then the declaration, else UTF-8.
 */
export function encodingOf(first: Uint8Array): string {
  if (first[0] === 0xff && first[1] === 0xfe) return "utf-16le";
  if (first[0] === 0xfe && first[1] === 0xff) return "utf-16be";
  if (first[0] === 0x3c && first[1] === 0) return "utf-16le";
  if (first[0] === 0 && first[1] === 0x3c) return "utf-16be";
  const start = String.fromCharCode(...first.subarray(0, 100));
  return (
    /^(?:\u00ef\u00bb\u00bf)?<\?xml[^>]*\sencoding\s*=\s*["']([A-Za-z][\w.:-]*)["']/.exec(start)?.[1]?.toLowerCase() ??
    "utf-8"
  );
}
