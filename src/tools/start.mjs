// npm start: packages when missing, build, serve on localhost.
import { at, ensurePackages, stop } from "./ready.mjs";
import { appServer, listen } from "./serve.mjs";

ensurePackages();
const port = Number(process.env.PORT ?? 5178);
const { build } = await import("vite");
await build({ configFile: at("vite.config.ts"), logLevel: "warn" });
try {
  const open = await listen(appServer(at("dist")), port);
  console.log(
    `\nNoonplug is ready: http://localhost:${open}\nOpen it in a browser; "Look around" shows an invented demo yard. Ctrl+C ends it.`,
  );
} catch (problem) {
  if (problem.code !== "EADDRINUSE") throw problem;
  stop(
    `Port ${port} is taken, perhaps by another Noonplug. End that one, or start with PORT=another; what you typed belongs to one address and does not move with the port.`,
  );
}
