// Finding and making elements. Words go in as text: no markup is ever parsed from a string.

const byId = (id) => document.getElementById(id);

// An element: attributes by name (`on` holds listeners, false leaves an attribute out), then children.
function make(tag, attributes = {}, ...children) {
  const isDrawing = ["svg", "g", "path", "line", "circle", "rect", "text", "title", "desc"].includes(tag);
  const element = isDrawing ? document.createElementNS("http://www.w3.org/2000/svg", tag) : document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (name === "on") for (const [event, listener] of Object.entries(value)) element.addEventListener(event, listener);
    else if (value === true) element.setAttribute(name, "");
    else if (value !== false && value !== undefined && value !== null) element.setAttribute(name, String(value));
  }
  element.append(...children.flat().filter((child) => child !== null && child !== undefined));
  return element;
}

// Says something to a screen reader without moving anything.
function announce(words) {
  byId("say").textContent = words;
}

// A button that does something.
const button = (words, press, attributes = {}) => make("button", { type: "button", ...attributes, on: { click: press } }, words);

// A field to write in, with its label above it, that hands on every change.
function writing(id, label, text, change, attributes = {}) {
  const area = make("textarea", { id, rows: 3, spellcheck: "true", autocomplete: "off", ...attributes });
  area.value = text ?? "";
  const grow = () => {
    area.style.height = "auto";
    area.style.height = `${area.scrollHeight + 4}px`;
  };
  area.addEventListener("input", () => {
    change(area.value);
    grow();
  });
  area.addEventListener("focus", grow);
  return make("div", { class: "field" }, make("label", { for: id }, label), area);
}

// One choice out of several.
function choices(name, legend, options, chosen, change, attributes = {}) {
  const rows = options.map(([value, words, more]) => {
    const id = `${name}-${value}`;
    const input = make("input", { type: "radio", name, id, value, on: { change: () => change(value) } });
    input.checked = value === chosen;
    const note = more ? make("span", { class: "quiet" }, ` ${more}`) : null;
    return make("div", { class: "choice" }, input, make("label", { for: id }, words, note));
  });
  return make("fieldset", attributes, make("legend", {}, legend), make("div", { class: "choices" }, rows));
}

const sentence = (words) => words.charAt(0).toUpperCase() + words.slice(1);
const counted = (n, one, many = `${one}s`) => `${n} ${n === 1 ? one : many}`;
