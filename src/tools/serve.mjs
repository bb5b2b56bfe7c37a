// Serves the built app on localhost, with the headers a real host should send. Used by `npm start` and the browser tests.
import { createReadStream, existsSync, readFileSync, statSync } from "node:fs";
import { createServer } from "node:http";
import { extname, join, normalize } from "node:path";
import { gzipSync } from "node:zlib";

const TYPES = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json; charset=utf-8",
  ".webmanifest": "application/manifest+json",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".woff2": "font/woff2",
  ".txt": "text/plain; charset=utf-8",
};
export const CONTENT_SECURITY_POLICY =
  "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; font-src 'self'; connect-src 'self'; worker-src 'self'; manifest-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

const HEADERS = {
  "Content-Security-Policy": CONTENT_SECURITY_POLICY,
  "X-Content-Type-Options": "nosniff",
  "Referrer-Policy": "no-referrer",
  "Permissions-Policy": "camera=(), microphone=(), payment=()",
};

/** @param {string} folder the built app. @returns a node http server, not yet listening. */
export function appServer(folder) {
  const packed = new Map();
  return createServer((request, response) => {
    const path = normalize(decodeURIComponent(new URL(request.url ?? "/", "http://host").pathname)).replace(
      /\/$/,
      "/index.html",
    );
    const file = join(folder, path);
    // A missing file is a 404, never index.html under a 200: a cache would keep that for ever.
    if (!file.startsWith(folder) || !existsSync(file) || !statSync(file).isFile()) return missing(response);
    const hashed = path.startsWith("/assets/");
    const headers = {
      ...HEADERS,
      "Content-Type": TYPES[extname(file)] ?? "application/octet-stream",
      "Cache-Control": hashed ? "public, max-age=31536000, immutable" : "no-cache",
    };
    const squeeze =
      /\.(js|css|html|json|svg|webmanifest|txt)$/.test(file) && /gzip/.test(request.headers["accept-encoding"] ?? "");
    if (!squeeze) {
      response.writeHead(200, headers);
      createReadStream(file).pipe(response);
      return;
    }
    const key = `${file}:${statSync(file).mtimeMs}`;
    if (!packed.has(key)) packed.set(key, gzipSync(readFileSync(file), { level: 9 }));
    response.writeHead(200, { ...headers, "Content-Encoding": "gzip", Vary: "Accept-Encoding" });
    response.end(packed.get(key));
  });
}

function missing(response) {
  response.writeHead(404, { ...HEADERS, "Content-Type": "text/plain; charset=utf-8" });
  response.end("Not here.");
}

/** Listens on localhost; rejects with the error when the port is taken: another port would be another origin, with other data. */
export function listen(server, port) {
  return new Promise((resolve, reject) => {
    server.once("error", reject);
    server.listen(port, "127.0.0.1", () => resolve(server.address().port));
  });
}
