// Recalculates while one types. One form asks; a newer question takes the place of an older one;
// results, figures and drawing are swapped, never the form.
import { startCharts } from "./charts.js";
import { ENDED, lookAt, pause } from "./jobs.js";

const QUIET = 60; // ms without a key before the form is sent
const SETTLED = 1500; // ms without a change before the whole is worked out
const AGAIN = 2000; // ms after which a failed send is tried again
const REGIONS = ["results", "figures", "drawing", "steps", "elsewhere"];

const narrow = matchMedia("(max-width: 860px)");
const at = (id) => document.getElementById(id);

export function startLive(form) {
  new Live(form).begin();
}

class Live {
  constructor(form) {
    this.form = form;
    this.tab = crypto.randomUUID();
    this.turn = 0;
    this.asking = null; // the question on its way
    this.working = null; // the whole that is being worked out
    this.job = "";
    this.finished = false; // the last field was left, so its step is one of its own
    this.timer = this.settle = this.again = 0;
    this.headline = "";
  }

  begin() {
    document.documentElement.classList.add("live-on");
    this.field("script").value = "1";
    this.form.addEventListener("input", () => this.soon());
    this.form.addEventListener("change", () => {
      this.finished = true;
      this.soon();
    });
    this.form.addEventListener("keydown", (event) => {
      if (event.key === "Enter" && event.target.matches("input")) {
        event.preventDefault(); // Enter must not press the first row's button
        this.finished = true;
        this.soon();
      }
    });
    addEventListener("online", () => this.again && this.send());
    // An answer that comes while the page is being left must not change its address.
    addEventListener("beforeunload", () => {
      this.asking?.abort();
      this.working?.abort();
    });
    at("stop").addEventListener("click", () => this.stop());
    document.addEventListener("keydown", (event) => this.key(event));
    this.address = location.href;
    narrow.addEventListener("change", () => this.fit());
    const state = at("results").querySelector("[data-state]").dataset.state;
    this.complete = state === "full";
    this.drawn = at("figures").dataset.drawn === "yes";
    this.fit();
    // Typed before this module was there, or kept by the browser over a reload.
    const touched = [...this.form.elements].some((each) =>
      each.options
        ? [...each.options].some((one) => one.selected && one.index && !one.defaultSelected)
        : each.type !== "hidden" && "defaultValue" in each && each.value !== each.defaultValue,
    );
    if (state === "none" || touched) this.send();
    else if (state !== "faulty" && !(this.complete && this.drawn)) this.wholeLater(SETTLED);
  }

  // A narrow screen has a drawing of its own: fewer, larger words.
  async fit() {
    document.cookie = `narrow=${Number(narrow.matches)}; path=/; samesite=strict; max-age=31536000`;
    if ((at("drawing").dataset.compact === "yes") !== narrow.matches) {
      await this.fetchResults().catch(() => {}); // the next answer brings it
    }
  }

  async fetchResults(signal) {
    const asked = this.address;
    const address = new URL(asked);
    address.searchParams.set("narrow", Number(narrow.matches));
    const found = await fetch(`${this.form.dataset.at}/results${address.search}`, { signal });
    const data = await found.json();
    if (found.ok && asked === this.address) this.swap(data); // nothing was typed meanwhile
    return found.ok;
  }

  key(event) {
    if (!(event.ctrlKey || event.metaKey)) return;
    if (event.key === "s") {
      event.preventDefault();
      at("save").click();
    }
    if (event.key.toLowerCase() !== "z") return;
    if (event.target.matches("input, textarea, select")) return; // a field undoes its own typing
    const link = at(event.shiftKey ? "redo" : "undo");
    if (link) {
      event.preventDefault();
      link.click();
    }
  }

  soon() {
    clearTimeout(this.timer);
    clearTimeout(this.settle);
    this.timer = setTimeout(() => this.send(), QUIET);
  }

  async send() {
    clearTimeout(this.again);
    this.again = 0;
    this.asking?.abort();
    this.working?.abort();
    const asking = (this.asking = new AbortController());
    const words = new URLSearchParams(new FormData(this.form));
    words.set("tab", this.tab);
    words.set("narrow", Number(narrow.matches));
    words.set("turn", String(++this.turn));
    at("results").classList.add("stale");
    let data;
    try {
      const answer = await fetch(`${this.form.dataset.at}/live`, {
        method: "POST", body: words, signal: asking.signal,
      });
      data = await answer.json();
      if (!answer.ok) data = { refused: (data.faults ?? []).map((each) => each.message) };
    } catch (error) {
      if (error.name === "AbortError") return;
      this.tell("Not recalculated: no connection to the program. It will be tried again.");
      this.again = setTimeout(() => this.send(), AGAIN);
      return;
    }
    if (asking.signal.aborted || data.overtaken) return;
    if (data.refused) {
      this.tell(`Not recalculated: ${data.refused.join(" ")}`);
      return;
    }
    this.swap(data);
    this.tell("");
    if (this.finished) {
      this.finished = false;
      this.field("parent").value = data.step;
    }
    this.field("tip").value = data.step;
    if (data.sound && !(data.complete && data.drawn)) this.wholeLater(SETTLED);
  }

  wholeLater(milliseconds) {
    clearTimeout(this.settle);
    this.settle = setTimeout(() => this.whole(), milliseconds);
  }

  // The whole assessment, as a job: intervals, the hottest day, notices; then the charts.
  async whole() {
    this.working?.abort();
    const { signal } = (this.working = new AbortController());
    try {
      const told = "How sure this is, and what would help: being worked out";
      if (!this.complete && !(await this.work("assess", told, signal))) return;
      if (!this.drawn) await this.work("charts", "Charts: being drawn", signal);
    } catch (error) {
      if (error.name === "AbortError") return;
      this.tell("Not worked out in full: no connection. It will be tried again.");
      this.wholeLater(AGAIN);
    } finally {
      if (!signal.aborted) at("stop").hidden = true;
    }
  }

  // Begins a job, follows it, and shows what came of it; whether it was done.
  async work(kind, words, signal) {
    const asked = new URL(this.address).searchParams;
    const sent = new URLSearchParams({ instead: this.job });
    for (const name of ["w", "v", "rev"]) sent.set(name, asked.get(name) ?? "");
    const begun = await fetch(`${this.form.dataset.build}/jobs/${kind}`, {
      method: "POST", body: sent, signal,
    });
    let job = await begun.json();
    this.job = job.key ?? "";
    at("stop").hidden = false;
    while (job.key && !ENDED.includes(job.state)) {
      this.tell(`${words} (${job.doing}).`);
      await pause(400);
      if (signal.aborted) return false;
      job = await lookAt(job.key, signal);
    }
    this.tell(job.state === "cancelled" ? "Stopped." : "");
    if (job.state === "broken") this.tell(`The program has a fault of its own: ${job.doing}.`);
    if (job.state === "faulty") this.tell((job.faults ?? []).map((each) => each.message).join(" "));
    if (job.state !== "done") return false;
    return this.fetchResults(signal);
  }

  stop() {
    if (this.job) fetch(`/jobs/${this.job}/cancel`, { method: "POST", body: new URLSearchParams() });
  }

  swap(data) {
    const active = document.activeElement;
    const asked = active?.matches(".ask") ? active.getAttribute("href") : null;
    const inside = REGIONS.some((id) => at(id).contains(active)) ? active.id : "";
    for (const id of REGIONS) {
      if (id === "drawing" && !data.drawing) continue; // the last one stays until the fault is mended
      if (at(id).innerHTML !== data[id]) at(id).innerHTML = data[id];
    }
    at("results").classList.remove("stale");
    at("drawing").dataset.compact = data.compact ? "yes" : "no";
    if (data.compact !== narrow.matches) this.fit(); // the window was resized meanwhile
    this.complete = data.complete;
    this.drawn = data.drawn;
    startCharts();
    for (const [name, state] of Object.entries(data.entries)) this.note(name, state);
    this.carry(data);
    if (inside) at(inside)?.focus();
    if (asked) document.querySelector(`.ask[href="${CSS.escape(asked)}"]`)?.focus();
  }

  // What may change beside a field while another is typed: its assumption, its note, its fault.
  note(name, { assumed, note, source, fault }) {
    const field = this.form.elements.namedItem(name);
    if (!field?.id) return;
    const entry = field.closest(".entry");
    at(`${field.id}-n`).textContent = note;
    at(`${field.id}-s`).textContent = source;
    const message = at(`${field.id}-m`);
    if (message.textContent !== fault) message.textContent = fault;
    field.toggleAttribute("aria-invalid", Boolean(fault));
    if ("placeholder" in field) field.placeholder = assumed;
    if (field.options) field.options[0].textContent = assumed ? `${assumed} (assumed)` : "not given";
    entry.classList.toggle("assumed", Boolean(assumed));
    entry.classList.toggle("given", field.value !== "");
    entry.classList.toggle("faulty", Boolean(fault));
  }

  // Every address and small form on the page goes on from the step that is shown.
  carry({ address, asked }) {
    this.address = new URL(address, location.href).href;
    const here = new URL(location.href);
    for (const name of ["w", "v", "rev"]) set(here, name, asked[name]);
    here.searchParams.delete("work");
    history.replaceState(null, "", here);
    const within = `${this.form.dataset.build}/`;
    for (const link of document.querySelectorAll(".zones a, .title-block a, .draw a")) {
      const target = new URL(link.getAttribute("href"), location.href); // of the drawing, too
      if (!target.pathname.startsWith(within)) continue;
      for (const name of ["w", "v"]) set(target, name, asked[name]);
      link.setAttribute("href", target);
    }
    for (const small of document.querySelectorAll("form.carry")) {
      for (const name of ["w", "v"]) small.elements.namedItem(name).value = asked[name];
    }
  }

  field(name) {
    return this.form.elements.namedItem(name);
  }

  tell(text) {
    const place = at("progress");
    if (place.textContent !== text) place.textContent = text;
    at("results").classList.toggle("stale", text.startsWith("Not recalculated"));
  }
}

function set(address, name, value) {
  if (value) address.searchParams.set(name, value);
  else address.searchParams.delete(name);
}
