// The calculator of the page: the function that forecasts are (crate calefact-analysis, module forecast), repeated with the
// draws embedded in the page, for a job of the reader's own. Names of formulas are those of that module's documentation.
"use strict";
(() => {
  const given = JSON.parse(document.getElementById("laws").textContent);
  const section = document.getElementById("calculator");
  const form = section.querySelector("form");
  const answered = document.getElementById("answered");

  // Water: IAPWS SR6-08 (2008), as in calefact-physics.
  const Tr = 10, R = 461.51805, V5 = 1.93763157e-2;
  const ag = [[4, -1.661470539e5], [5, 2.70878164e6], [7, -1.557191544e8]];
  const bg = [[2, -8.237426256e-1], [3, 1.908956353], [4, -2.017597384], [5, 8.546361348e-1]];
  const av = [[4, 6.74458446e3], [5, -2.22521604e5], [7, 1.00231247e8], [8, -1.63552118e9], [9, 8.32299658e9]];
  const bv = [[1, 5.78545292e-3], [2, -1.53195665e-2], [3, 3.11337859e-2], [4, -4.23546241e-2], [5, 3.38713507e-2],
    [6, -1.19946761e-2]];
  const reduced = t => ({ tau: (t + 273.15) / Tr, a: Tr / (593 - t - 273.15), b: Tr / (t + 273.15 - 232) });
  const sum = (terms, x, weight) => terms.reduce((s, [n, c]) => s + c * x ** n * weight(n), 0);
  const density = t => {
    const { a, b } = reduced(t);
    return 1e5 / (R * Tr * (V5 + sum(av, a, () => 1) + sum(bv, b, () => 1)));
  };
  const enthalpy = t => {
    const { tau, a, b } = reduced(t);
    const series = sum(ag, a, n => 1 - n * tau * a) + sum(bg, b, n => 1 + n * tau * b);
    return R * Tr * (-2.452093414e2 + 8.983025854 * tau + series);
  };

  // q(M) of wood whose dry matter has q(0).
  const net = (dry, moisture) => dry * (1 - moisture) - 2.443e6 * moisture;
  const drier = (job, dry, moisture) => {
    const ratio = job.moisture === null || dry === null || moisture === null ? 1 : net(dry, job.moisture) / net(dry, moisture);
    return Number.isFinite(ratio) ? ratio : 1;
  };

  // Time and wood of one draw. law: [P, c, m, M]; vessel: [C, U]; stretch: [e1, e2, e3].
  const outcome = (job, dry, law, vessel, stretch, beyond) => {
    const [P, c, m, moisture] = law, C = vessel[0], U = Math.max(vessel[1], 0), fixed = Math.max(c, 0);
    const power = P * drier(job, dry, moisture) * (1 + given.limits.power * stretch[0] * beyond.heat)
      * (1 - given.limits.hot * stretch[2] * beyond.hot);
    const rate = (m === null ? NaN : m) * (1 + given.limits.burn_rate * stretch[1] * beyond.heat);
    const H = stored(job, C) + U * fixed * 0.5 * (job.from - job.air + (job.to - job.air));
    const a = power - U * (job.from - job.air), z = power - U * (job.to - job.air);
    let s = Infinity;
    if (a > 0 && z > 0) {
      const ratio = z / a;
      s = H / (Math.abs(ratio - 1) < 1e-6 ? 0.5 * (a + z) : (z - a) / Math.log(ratio));
    }
    return { time: fixed + s, wood: rate * s, power };
  };
  const stored = (job, C) =>
    job.water * density(job.from) * (enthalpy(job.to) - enthalpy(job.from)) + C * (job.to - job.from);
  const beyondOf = (job, C, extent) => {
    const heat = stored(job, C), ratio = Math.max(heat / extent.stored[1], extent.stored[0] / heat, 1);
    return { heat: 1 - 1 / ratio, hot: Math.max(job.to - extent.hottest, 0) };
  };

  // Definition 6 of Hyndman and Fan (1996).
  const quantile = (sorted, p) => {
    const n = sorted.length, place = Math.min(Math.max(p * (n + 1) - 1, 0), n - 1), below = Math.floor(place);
    const low = sorted[below], high = sorted[Math.min(below + 1, n - 1)], part = place - below;
    return part === 0 || low >= high ? low : low + part * (high - low);
  };
  const interval = values => {
    const sorted = Float64Array.from(values).sort(), tail = 0.5 - 0.5 * given.level;
    return [quantile(sorted, tail), quantile(sorted, 0.5 + 0.5 * given.level)];
  };

  // The vessel: the usual one, or one of the water's size where the water does not fit in. Heat capacity goes with the volume,
  // the loss with the surface.
  const vesselOf = (job, law) => {
    if (law.volume === null || job.water <= law.volume * 1.05) return law.vessel;
    const V = job.water, A = Math.cbrt(V * V), of = given.of_its_size;
    const times = (values, by) => values.map(x => x * by);
    return { name: of.name, centre: [of.centre[0] * V, of.centre[1] * A],
      draws: [times(of.draws[0], V), times(of.draws[1], A)] };
  };

  const forecast = (job, law) => {
    const vessel = vesselOf(job, law), beyond = beyondOf(job, vessel.centre[0], law.extent);
    const centre = outcome(job, law.net_dry, law.centre, vessel.centre, [0, 0, 0.5], beyond);
    const at = (columns, i) => columns.map(column => column[i]);
    const run = draws => draws[0].map((_, i) =>
      outcome(job, law.net_dry, at(draws, i), at(vessel.draws, i), at(given.stretch, i), beyond));
    const mean = run(law.mean), next = run(law.next);
    const spread = key => ({ value: centre[key], mean: interval(mean.map(o => o[key])),
      next: next.length ? interval(next.map(o => o[key])) : null });
    const highest = job.air + centre.power / vessel.centre[1];
    return { law, vessel, highest, time: spread("time"), wood: Number.isNaN(centre.wood) ? null : spread("wood") };
  };

  // Digits as the page has them: two significant ones of the half width of the widest interval, within the last that matters.
  const places = u => {
    if (!Number.isFinite(u) || u <= 0) return null;
    const place = 1 - Math.floor(Math.log10(u));
    return Math.round(u * 10 ** place) >= 100 ? place - 1 : place;
  };
  const fixed = (x, place) => {
    if (!Number.isFinite(x)) return "–";
    const scale = 10 ** Math.max(-place, 0), size = Math.abs(x);
    const text = (place < 0 ? Math.round(size / scale) * scale : size).toFixed(Math.max(place, 0));
    return (x < 0 && /[1-9]/.test(text) ? "−" : "") + text;
  };
  const significant = (x, digits) => {
    const place = x === 0 ? 0 : Math.max(digits - 1 - Math.floor(Math.log10(Math.abs(x))), 0);
    const text = fixed(x, place);
    return text.includes(".") ? text.replace(/0+$/, "").replace(/\.$/, "") : text;
  };
  const joined = (text, symbol) => `${text}\u00a0${symbol}`;
  const shown = (spread, most, unit, symbol) => {
    const widest = spread.next || spread.mean, half = Math.abs(unit(spread.value) - unit(widest[0]));
    const fallback = 2 - Math.floor(Math.log10(Math.abs(unit(spread.value))));
    const place = Math.min(Math.max(places(half) ?? fallback, -1), most);
    const text = x => fixed(unit(x), place);
    const range = i => i === null ? "not known" : Number.isFinite(i[1])
      ? joined(`${text(i[0])} to ${text(i[1])}`, symbol) : `${joined(text(i[0]), symbol)} or more`;
    return { value: joined(text(spread.value), symbol), next: range(spread.next), mean: range(spread.mean) };
  };

  // Units of the reader.
  const systems = {
    metric: { mass: [x => x, "kg"], volume: [x => x * 1000, "L"], degrees: [x => x, "°C"], difference: [x => x, "K"],
      length: [x => x, "m"] },
    us: { mass: [x => x / 0.45359237, "lb"], volume: [x => x / 3.785411784e-3, "US\u00a0gal"],
      degrees: [x => x * 1.8 + 32, "°F"], difference: [x => x * 1.8, "°F"], length: [x => x / 0.3048, "ft"] },
  };
  let system = given.us ? "us" : "metric";
  const measure = (kind, x) => joined(significant(systems[system][kind][0](x), 3), systems[system][kind][1]);
  const whole = (kind, x) => joined(fixed(systems[system][kind][0](x), 0), systems[system][kind][1]);
  const minutes = s => s < 5 * 3600;
  const timeShown = spread =>
    minutes(spread.value) ? shown(spread, 0, x => x / 60, "min") : shown(spread, 1, x => x / 3600, "h");
  const duration = s => joined(significant(minutes(s) ? s / 60 : s / 3600, 3), minutes(s) ? "min" : "h");
  const percent = x => joined(fixed(100 * x, 0), "%");

  // In what the job lies beyond the burns: of each way the farthest of all rows.
  const outside = (job, rows) => {
    const ways = [
      f => [job.water / f.law.extent.water_m3[1], 1.02, r => `${percent(r - 1)} more water than any burn of a combination (${measure("volume", job.water / r)})`],
      f => [f.law.extent.water_m3[0] / job.water, 1 / 0.98, r => `${percent(1 - 1 / r)} less water than any burn of a combination (${measure("volume", job.water * r)})`],
      f => [job.to - f.law.extent.hottest, 0.5, k => `${whole("difference", k)} hotter than any burn of a combination ended (${whole("degrees", job.to - k)})`],
      f => [f.time.value / f.law.extent.longest_s, 1.05, (r, g) => `${percent(r - 1)} longer than any burn of a combination (${duration(g.law.extent.longest_s)})`],
    ];
    const found = ways.map(way => {
      const [size, f] = rows.map(f => [way(f)[0], f]).reduce((a, b) => b[0] > a[0] ? b : a);
      const [, limit, words] = way(f);
      return size > limit ? words(size, f) : "";
    }).filter(Boolean);
    return found.length < 2 ? found.join("") : `${found.slice(0, -1).join(", ")} and ${found[found.length - 1]}`;
  };
  const refusal = job => {
    const degrees = t => whole("degrees", t);
    const { moisture, ...wanted } = job;
    if (Object.values(wanted).some(x => !Number.isFinite(x))) return "water and temperatures are wanted";
    if (moisture !== null && !(moisture >= 0 && moisture < 1)) return "moisture from 0 to 99 % is wanted, or none for that of the burns";
    if (job.water <= 0) return "there is no water to heat; state how much";
    if (job.from < 0) return `water of ${degrees(job.from)} is ice; start above ${degrees(0)}`;
    if (job.to <= job.from) return `the target of ${degrees(job.to)} is not above the start of ${degrees(job.from)}`;
    if (job.to >= given.boiling) {
      const place = given.altitude === null ? "at sea level (state the altitude of the site)" : `at ${measure("length", given.altitude)}`;
      return `water boils at ${degrees(given.boiling)} ${place}; the target of ${degrees(job.to)} cannot be reached`;
    }
    return null;
  };

  const field = name => form.elements[name];
  const element = (tag, text, attributes) => Object.assign(document.createElement(tag), { textContent: text ?? "", ...attributes });
  const read = () => {
    const number = name => field(name).value.trim() === "" ? NaN : Number(field(name).value);
    const degrees = name => system === "us" ? (number(name) - 32) / 1.8 : number(name);
    const volume = system === "us" ? 3.785411784e-3 : 1e-3;
    const moisture = Number.isNaN(number("moisture")) ? null : number("moisture") / 100;
    return { water: number("water") * volume, from: degrees("from"), to: degrees("to"), air: degrees("air"), moisture };
  };
  const write = job => {
    const put = (name, kind, x) => { field(name).value = significant(systems[system][kind][0](x), 4).replace("−", "-"); };
    put("water", "volume", job.water);
    for (const name of ["from", "to", "air"]) put(name, "degrees", job[name]);
    field("moisture").value = job.moisture === null ? "" : significant(100 * job.moisture, 4);
    for (const span of section.querySelectorAll("[data-unit]")) {
      span.textContent = systems[system][span.dataset.unit === "volume" ? "volume" : "degrees"][1];
    }
  };

  const table = rows => {
    const names = ["With", "Burns", "Wood", "One next burn", "Mean of many", "Time", "One next burn", "Mean of many"];
    const table = element("table"), head = table.createTHead().insertRow(), body = table.createTBody();
    for (const name of names) head.append(element("th", name, { scope: "col" }));
    for (const f of rows) {
      const row = body.insertRow(), time = timeShown(f.time);
      const wood = f.wood ? shown(f.wood, 2, ...systems[system].mass) : { value: "", next: "", mean: "" };
      row.append(element("th", f.law.name, { scope: "row" }));
      for (const text of [f.law.n, wood.value, wood.next, wood.mean, time.value, time.next, time.mean]) {
        row.append(element("td", text));
      }
    }
    const scroll = element("div", "", { className: "scroll", tabIndex: 0 });
    scroll.setAttribute("role", "group");
    scroll.setAttribute("aria-label", "What your job takes");
    scroll.append(table);
    return scroll;
  };
  const note = (parent, text) => { if (text) parent.append(element("p", `${text[0].toUpperCase()}${text.slice(1)}.`, { className: "remark" })); };
  const grouped = (rows, of) => {
    const groups = new Map();
    for (const f of rows) if (of(f)) groups.set(of(f), [...(groups.get(of(f)) ?? []), f.law.name]);
    return [...groups].map(([text, names]) => [text, names.length === rows.length ? "" : names.length > 2 ? ` (${names.length} of ${rows.length} rows)` : ` (${names.join("; ")})`]);
  };

  const answer = () => {
    const job = read(), refused = refusal(job), out = element("div");
    const wanted = ["stove", "fuel", "exchanger"].map(name => field(name).value);
    const laws = given.combinations.filter(law => wanted.every((level, i) => level === "" || law.levels[i] === level));
    if (refused) note(out, `no answer: ${refused}`);
    else if (!laws.length) note(out, `no burn has ${wanted.filter(Boolean).join(", ")} together`);
    else {
      const all = laws.map(law => forecast(job, law));
      const given = all.filter(f => Number.isFinite(f.time.value));
      given.sort((a, b) => (a.wood ?? a.time).value - (b.wood ?? b.time).value);
      if (given.length) out.append(table(given));
      for (const f of all) if (!given.includes(f)) note(out, `no answer with ${f.law.name}: this fire holds the water at ${whole("degrees", f.highest)} at most, since the vessel loses the rest`);
      for (const [text, names] of grouped(given, f => f.vessel.name)) note(out, `vessel${names}: ${text}`);
      const far = given.length ? outside(job, given) : "";
      if (far) note(out, `beyond your burns: ${far}`);
    }
    answered.replaceChildren(...out.childNodes);
  };

  ["stove", "fuel", "exchanger"].forEach((name, i) => {
    const levels = [...new Set(given.combinations.map(law => law.levels[i]))].filter(Boolean);
    if (levels.length !== 1) field(name).append(new Option("any", ""));
    for (const level of levels) field(name).append(new Option(level, level));
  });
  field("units").value = system;
  field("units").addEventListener("change", () => {
    const job = read();
    system = field("units").value;
    write(job);
  });
  form.addEventListener("input", answer);
  form.addEventListener("change", answer);
  form.addEventListener("submit", event => event.preventDefault());
  const { water_m3: water, from, to, ambient: air, fuel_moisture: moisture } = given.start;
  write({ water, from, to, air, moisture });
  section.hidden = false;
  answer();
})();

// Paper shows what is folded, in browsers that do not open it for print by themselves.
addEventListener("beforeprint", () => document.querySelectorAll("details:not(.screen)").forEach(d => { d.open = true; }));
