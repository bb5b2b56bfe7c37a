import { serveLong } from "./long-call.js";
import { readTrackFile } from "./read-track.js";

addEventListener("message", serveLong(readTrackFile, postMessage));
