// The computed outcome: the model's own curve without noise, the means with their bars, and a marker that the reader
// moves along the curve; the changed experiment switched on and off.

const BOX = { width: 640, height: 400, left: 84, right: 36, top: 20, bottom: 62 };

// Round steps for an axis: 1, 2 or 5 times a power of ten.
function ticks(low, high, most = 6) {
  const rough = (high - low) / most || 1;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((times) => times * power).find((size) => size >= rough * 0.999);
  const first = Math.ceil(low / step - 1e-9);
  const last = Math.floor(high / step + 1e-9);
  const places = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  return Array.from({ length: last - first + 1 }, (_, at) => ({ at: (first + at) * step, words: shown((first + at) * step, places) }));
}

// A number with so many decimals and a true minus sign.
const shown = (value, places) => value.toFixed(Math.min(places, 12)).replace("-", "−");

// Decimals that show a hundredth of the way between the ends.
const placesFor = (low, high) => Math.max(0, Math.ceil(2 - Math.log10(Math.abs(high - low) || 1) - 1e-9));

// The value of a curve between two of its points, on the straight line that joins them.
function along(curve, level) {
  const after = curve.findIndex(([x]) => x >= level);
  if (after <= 0) return curve[after === 0 ? 0 : curve.length - 1][1];
  const [[x0, y0], [x1, y1]] = [curve[after - 1], curve[after]];
  return y0 + ((y1 - y0) * (level - x0)) / (x1 - x0);
}

class Outcome {
  constructor(place, view, work, save) {
    Object.assign(this, { view, work, save });
    const [low, high] = [view.plain.curve[0][0], view.plain.curve.at(-1)[0]];
    this.low = low;
    this.high = high;
    const all = [view.plain, view.twisted].filter(Boolean);
    const ys = all.flatMap((run) => [...run.curve.map(([, y]) => y), ...run.rows.flatMap(([, mean, bar]) => [mean - bar, mean + bar])]);
    const top = Math.max(...ys);
    const bottom = Math.min(...ys);
    this.floor = bottom > 0 && bottom < top / 2 ? 0 : bottom - (top - bottom) * 0.05;
    this.ceiling = top + (top - this.floor) * 0.05;
    this.places = [placesFor(low, high), placesFor(bottom, top)];
    this.build(place);
    this.draw();
  }

  get run() {
    return this.work.twisted && this.view.twisted ? this.view.twisted : this.view.plain;
  }

  x(level) {
    return BOX.left + ((level - this.low) / (this.high - this.low)) * (BOX.width - BOX.left - BOX.right);
  }

  y(value) {
    return BOX.height - BOX.bottom - ((value - this.floor) / (this.ceiling - this.floor)) * (BOX.height - BOX.top - BOX.bottom);
  }

  build(place) {
    this.svg = make("svg", { viewBox: `0 0 ${BOX.width} ${BOX.height}`, role: "img", "aria-labelledby": "outcome-title outcome-words", class: "plot" });
    this.slider = make("input", { type: "range", id: "treatment", min: this.low, max: this.high, step: "any" });
    this.slider.step = (this.high - this.low) / 200;
    this.slider.value = this.work.level ?? (this.low + this.high) / 2;
    this.slider.addEventListener("input", () => {
      this.work.level = Number(this.slider.value);
      this.save();
      this.mark();
    });
    this.told = make("p", { class: "reading", id: "reading-here" });
    const { dial } = this.view;
    place.replaceChildren(
      make("figure", { class: "outcome" }, this.svg,
        make("figcaption", {}, make("strong", {}, "Figure 2. "), "Line: what the model gives without noise. Points: the means that were read, with ±2 SEM.")),
      make("div", { class: "field" }, make("label", { for: "treatment" }, `Move the treatment: ${dial.header}`), this.slider),
      this.told);
    if (this.view.twisted) {
      this.switch = button("", () => {
        this.work.twisted = !this.work.twisted;
        this.save();
        this.draw();
      }, { role: "switch", class: "switch" });
      this.agent = make("p", { class: "quiet" }, this.view.twisted.agent);
      place.append(make("div", { class: "changed" }, this.switch, this.agent));
    }
  }

  draw() {
    const run = this.run;
    const { dial, reading } = this.view;
    const [right, bottom] = [BOX.width - BOX.right, BOX.height - BOX.bottom];
    const parts = [make("title", { id: "outcome-title" }, `${reading.name} against ${dial.name}`), make("desc", { id: "outcome-words" }, this.inWords(run))];
    for (const { at, words } of ticks(this.floor, this.ceiling)) {
      parts.push(make("line", { x1: BOX.left, x2: right, y1: this.y(at), y2: this.y(at), class: "grid" }));
      parts.push(make("text", { x: BOX.left - 8, y: this.y(at) + 5, class: "end" }, words));
    }
    for (const { at, words } of ticks(this.low, this.high)) {
      parts.push(make("line", { x1: this.x(at), x2: this.x(at), y1: bottom, y2: bottom + 6, class: "axis" }));
      parts.push(make("text", { x: this.x(at), y: bottom + 23, class: "middle" }, words));
    }
    parts.push(make("path", { d: `M${BOX.left} ${BOX.top}V${bottom}H${right}`, class: "axis" }));
    parts.push(make("text", { x: (BOX.left + right) / 2, y: BOX.height - 10, class: "middle name" }, dial.header));
    const middle = (BOX.top + bottom) / 2;
    parts.push(make("text", { x: 22, y: middle, class: "middle name", transform: `rotate(-90 22 ${middle})` }, reading.header));
    if (run !== this.view.plain) parts.push(this.line(this.view.plain.curve, "curve before"));
    parts.push(this.line(run.curve, "curve"));
    for (const [level, mean, bar] of run.rows) {
      const [x, low, high] = [this.x(level), this.y(mean - bar), this.y(mean + bar)];
      parts.push(make("path", { d: `M${x} ${low}V${high}M${x - 6} ${low}h12M${x - 6} ${high}h12`, class: "bar" }));
      parts.push(make("circle", { cx: x, cy: this.y(mean), r: 4.5, class: "mean" }));
    }
    this.marker = make("g", { class: "marker" });
    parts.push(this.marker);
    this.svg.replaceChildren(...parts);
    if (this.switch) {
      const on = run !== this.view.plain;
      this.switch.setAttribute("aria-checked", String(on));
      this.switch.textContent = on ? "Changed experiment: on" : "Changed experiment: off";
    }
    this.mark();
  }

  line(curve, name) {
    return make("path", { d: curve.map(([x, y], at) => `${at === 0 ? "M" : "L"}${this.x(x).toFixed(2)} ${this.y(y).toFixed(2)}`).join(""), class: name });
  }

  // Puts the marker where the slider stands, and says what the model gives there.
  mark() {
    const level = Number(this.slider.value);
    const value = along(this.run.curve, level);
    const { dial, reading } = this.view;
    const unit = (view) => (view.unit ? ` ${view.unit}` : "");
    const words = `${dial.name} ${shown(level, this.places[0])}${unit(dial)}: the model gives ${shown(value, this.places[1])}${unit(reading)}.`;
    this.slider.setAttribute("aria-valuetext", words);
    this.told.textContent = words;
    const [x, y] = [this.x(level), this.y(value)];
    this.marker.replaceChildren(
      make("path", { d: `M${x} ${BOX.height - BOX.bottom}V${y}H${BOX.left}`, class: "guide" }), make("circle", { cx: x, cy: y, r: 7 }));
  }

  inWords(run) {
    const rows = run.rows.map(([level, mean, bar]) => `${level}: ${mean} ± ${bar}`).join("; ");
    return `Horizontal axis: ${this.view.dial.header}. Vertical axis: ${this.view.reading.header}. Means with ±2 SEM: ${rows}.`;
  }
}
