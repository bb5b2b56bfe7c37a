import { openStore } from "../../../src/store/index.js";
import { readQuickly } from "../../../src/store/quick.js";

// the page of tests/browser/store.test.ts and tests/bench/scale.mjs: a store for its scripts to call, and how often storage was told that it changed
const store = openStore();
const heard: unknown[] = [];
store.subscribe((change) => heard.push(change));
Object.assign(window, { store, heard, readQuickly });
document.title = "ready";
