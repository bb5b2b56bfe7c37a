export * from "./compare.js";
export * from "./input.js";
export * from "./kit-checks.js";
export * from "./sizing.js";
export { PERSISTENCE } from "./sky-chain.js";
