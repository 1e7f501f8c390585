// The review engine: the same code as on the command line, as WebAssembly within this page. Where it cannot run, the
// reader scores without it.

// Bytes of an element's base64.
const decoded = (element) => Uint8Array.from(atob(element.textContent.trim()), (letter) => letter.charCodeAt(0));

// A function from request to review, or null.
async function startReviewer() {
  const element = byId("reviewer");
  if (!element || typeof WebAssembly !== "object") return null;
  try {
    const { instance } = await WebAssembly.instantiate(decoded(element), {});
    const { memory, allocate, release, review } = instance.exports;
    return (request) => {
      const bytes = new TextEncoder().encode(JSON.stringify(request));
      const at = allocate(bytes.length);
      new Uint8Array(memory.buffer, at, bytes.length).set(bytes);
      const reply = review(at, bytes.length);
      release(at, bytes.length);
      // Four bytes say how long the reply is; then it comes.
      const length = new DataView(memory.buffer).getUint32(reply, true);
      const answer = new TextDecoder().decode(new Uint8Array(memory.buffer, reply + 4, length));
      release(reply, length + 4);
      return JSON.parse(answer);
    };
  } catch {
    return null;
  }
}

// The review of all answers by part, or null where there is none.
async function reviewOf(view, work) {
  if (!view.reviewer) return null;
  const run = await startReviewer();
  if (!run) return null;
  try {
    const responses = view.parts.map((part) => ({ id: part.label, text: work.answers[part.label] ?? "" }));
    const { reviews } = run({ ...view.reviewer, responses });
    return reviews ? new Map(reviews.map((one) => [one.response, one])) : null;
  } catch {
    return null;
  }
}

// A text with the evidence marked. Spans count characters, as the engine does: not the halves of which a script counts.
function marked(text, spans) {
  const letters = Array.from(text);
  const words = (from, to) => letters.slice(from, to).join("");
  const pieces = [];
  let at = 0;
  for (const span of [...spans].sort((a, b) => a.start - b.start || b.end - a.end)) {
    // Where two points rest on the same words they are marked once.
    const start = Math.max(span.start, at);
    if (start >= span.end) continue;
    pieces.push(words(at, start), make("mark", { class: span.kind, title: span.why }, words(start, span.end)));
    at = span.end;
  }
  return [...pieces, words(at, letters.length)];
}

// How evidence is marked: what speaks for a point, what against it, and what a person must decide.
const kindOf = (span, status) => (span.role === "denies" ? "denies" : status === "found" || status === "contradicted" ? "earns" : "unsure");

const STATUS = {
  "found": "The tool found this point.",
  "not-found": "The tool did not find this point.",
  "contradicted": "The tool found something that denies this point.",
  "look-again": "The tool is not sure: look again.",
};
