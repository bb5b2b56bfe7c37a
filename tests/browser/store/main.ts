import { openStore } from "../../../src/store/index.js";

// the page of tests/browser/store.test.ts: a store for its scripts to call, and how often storage was told that it changed
const store = openStore();
const heard: unknown[] = [];
store.subscribe((change) => heard.push(change));
Object.assign(window, { store, heard });
document.title = "ready";
