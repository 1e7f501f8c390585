// Reviews requests with the WebAssembly reviewer: one JSON request a line on standard input, one reply a line on standard
// output. `node review.mjs reviewer.wasm < requests > replies`
import { readFileSync } from "node:fs";

const { instance } = await WebAssembly.instantiate(readFileSync(process.argv[2]), {});
const { memory, allocate, release, review } = instance.exports;

export function ask(request) {
  const bytes = new TextEncoder().encode(request);
  const place = allocate(bytes.length);
  new Uint8Array(memory.buffer, place, bytes.length).set(bytes);
  const at = review(place, bytes.length);
  release(place, bytes.length);
  const length = new DataView(memory.buffer).getUint32(at, true);
  const reply = new TextDecoder().decode(new Uint8Array(memory.buffer, at + 4, length));
  release(at, length + 4);
  return reply;
}

for (const line of readFileSync(0, "utf8").split("\n")) {
  if (line !== "") console.log(ask(line));
}
