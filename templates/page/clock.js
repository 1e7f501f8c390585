// The clock of a sitting: a reading period, then writing. It can be off, slower, or stopped; when time is up it says so
// and takes nothing away.

const PACES = [["0", "Standard time"], ["25", "A quarter more"], ["50", "Half more"], ["100", "Twice the time"], ["off", "No clock"]];

class Clock {
  constructor(place, minutes, state, save) {
    Object.assign(this, { minutes, state, save, period: null, timer: null });
    this.face = make("span", { class: "face" });
    this.toggle = button("Stop the clock", () => this.flip());
    place.append(make("span", { role: "timer", "aria-label": "Time left" }, this.face), this.toggle);
    this.place = place;
    addEventListener("pagehide", () => this.save());
  }

  seconds(period) {
    return Math.ceil(this.minutes[period] * 60 * (1 + Number(this.state.pace) / 100));
  }

  // Begins a period, or goes on with it where it was left.
  start(period) {
    this.period = period;
    this.stop();
    this.place.hidden = this.state.pace === "off";
    if (this.state.pace === "off") return;
    this.state.left[period] ??= this.seconds(period);
    this.show();
    if (!this.state.stopped) this.run();
  }

  run() {
    this.last = Date.now();
    this.timer = setInterval(() => this.tick(), 1000);
    this.toggle.textContent = "Stop the clock";
  }

  stop() {
    clearInterval(this.timer);
    this.timer = null;
  }

  end() {
    this.stop();
    this.place.hidden = true;
  }

  flip() {
    this.state.stopped = !this.state.stopped;
    if (this.state.stopped) {
      this.stop();
      this.toggle.textContent = "Let the clock run";
    } else this.run();
    this.save();
  }

  tick() {
    const before = this.state.left[this.period];
    const now = Date.now();
    this.state.left[this.period] = before - (now - this.last) / 1000;
    this.last = now;
    for (const [at, words] of [[300, "Five minutes left."], [60, "One minute left."], [0, "Time is up. Nothing closes: finish your sentence, or go on without the clock."]]) {
      if (before > at && this.state.left[this.period] <= at) announce(words);
    }
    if (Math.floor(before / 5) !== Math.floor(this.state.left[this.period] / 5)) this.save();
    this.show();
  }

  show() {
    const left = Math.max(0, Math.ceil(this.state.left[this.period]));
    const minutes = Math.floor(left / 60);
    const name = this.period === "reading" ? "Reading" : "Writing";
    this.face.textContent = left === 0 ? `${name}: time is up` : `${name}: ${minutes}:${String(left % 60).padStart(2, "0")}`;
    this.toggle.textContent = this.state.stopped ? "Let the clock run" : "Stop the clock";
    this.toggle.hidden = left === 0;
  }
}
