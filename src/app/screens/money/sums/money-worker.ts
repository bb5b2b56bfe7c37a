import { serveLong } from "../../../../work/long-call.js";
import { sumUp } from "./job.js";

addEventListener(
  "message",
  serveLong(sumUp, (message) => postMessage(message)),
);
