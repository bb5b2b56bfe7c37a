import { serveLong } from "./long-call.js";
import { sizeKit } from "./size-kit.js";

addEventListener("message", serveLong(sizeKit, postMessage));
