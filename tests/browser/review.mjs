// Reviews each line of standard input, a request, with the page's engine; writes the replies, a line each.
import { readFileSync } from "node:fs";

const { instance } = await WebAssembly.instantiate(readFileSync(process.argv[2]), {});
const { memory, alloc, dealloc, review } = instance.exports;
const replies = [];
for (const line of readFileSync(0, "utf8").split("\n").filter(Boolean)) {
  const bytes = new TextEncoder().encode(line);
  const at = alloc(bytes.length);
  new Uint8Array(memory.buffer, at, bytes.length).set(bytes);
  const packed = BigInt.asUintN(64, review(at, bytes.length));
  const [start, length] = [Number(packed >> 32n), Number(packed & 0xffffffffn)];
  replies.push(new TextDecoder().decode(new Uint8Array(memory.buffer, start, length)));
  dealloc(start, length);
}
process.stdout.write(`${replies.join("\n")}\n`);
