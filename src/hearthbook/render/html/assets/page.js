"use strict";
// Search, filters, folding and letter size. Without this script the page is whole and open.
(() => {
  const byId = (id) => document.getElementById(id);
  const data = JSON.parse(byId("page-data").textContent);
  const english = data.language.startsWith("en");

  // --- words -------------------------------------------------------------------------------
  const split = (text) =>
    text.toLowerCase().normalize("NFD").replace(/[\u0300-\u036f]/g, "").replace(/['’]s\b/g, "")
      .replace(/['’]/g, "").split(/[^\p{L}\p{N}]+/u).filter(Boolean);

  const stem = (word) => {
    if (!english || word.length < 4) return word;
    let base = word
      .replace(/ies$/, "y").replace(/(ss|x|ch|sh)es$/, "$1").replace(/([^su])s$/, "$1");
    if (base.length > 5) base = base.replace(/ing$/, "");
    if (base.length > 4) base = base.replace(/ed$/, "");
    return base.replace(/([bdfgmnprt])\1$/, "$1").replace(/e$/, "");
  };

  const common = new Set(data.stop.map(stem));
  const terms = (text) => {
    const all = split(text).map(stem);
    const telling = all.filter((word) => !common.has(word));
    return telling.length ? telling : all;
  };

  const kin = new Map();
  for (const group of data.synonyms) {
    const stems = group.flatMap((words) => split(words)).map(stem);
    for (const one of stems) kin.set(one, new Set([...(kin.get(one) || []), ...stems]));
  }

  const pairs = (word) => {
    const padded = `^${word}$`;
    return Array.from({ length: padded.length - 1 }, (_, i) => padded.slice(i, i + 2));
  };
  const likeness = (one, other) => {
    const left = pairs(one), right = pairs(other), spare = [...right];
    let shared = 0;
    for (const pair of left) {
      const at = spare.indexOf(pair);
      if (at >= 0) { shared += 1; spare.splice(at, 1); }
    }
    return (2 * shared) / (left.length + right.length);
  };
  // Letters changed, missing, added or swapped with their neighbour.
  const slips = (one, other) => {
    const rows = [[...Array(other.length + 1).keys()]];
    for (let i = 1; i <= one.length; i += 1) {
      rows.push([i]);
      for (let j = 1; j <= other.length; j += 1) {
        const same = one[i - 1] === other[j - 1] ? 0 : 1;
        let least = Math.min(rows[i - 1][j] + 1, rows[i][j - 1] + 1, rows[i - 1][j - 1] + same);
        if (i > 1 && j > 1 && one[i - 1] === other[j - 2] && one[i - 2] === other[j - 1]) {
          least = Math.min(least, rows[i - 2][j - 2] + 1);
        }
        rows[i].push(least);
      }
    }
    return rows[one.length][other.length];
  };

  // --- the questions -----------------------------------------------------------------------
  const questions = [...document.querySelectorAll("details.question")].map((element) => {
    const heading = element.querySelector("summary").textContent.trim();
    const weights = new Map();
    const weigh = (text, weight) => {
      for (const word of terms(text)) weights.set(word, Math.max(weight, weights.get(word) || 0));
    };
    weigh(element.querySelector(".answer").textContent, 1);
    weigh(element.dataset.place, 2);
    weigh(element.dataset.keywords, 4);
    weigh(heading, 5);
    // Two words written as one, such as “topup”.
    for (const text of [heading, ...element.dataset.keywords.split(",")]) {
      const words = split(text);
      words.slice(1).forEach((word, at) => weights.set(stem(words[at] + word), 4));
    }
    return {
      element, heading, weights,
      place: element.dataset.place,
      seasons: element.dataset.seasons ? element.dataset.seasons.split("|") : [],
    };
  });
  const known = new Map();
  for (const one of questions) {
    for (const word of one.weights.keys()) known.set(word, (known.get(word) || 0) + 1);
  }

  // The words of the page that a word asked for may mean, each with how surely; `typed` is what
  // stands there so far when it may not be finished.
  const meanings = (word, typed) => {
    const found = new Map();
    const add = (other, surely) => {
      if (known.has(other)) found.set(other, Math.max(surely, found.get(other) || 0));
    };
    add(word, 1);
    for (const other of kin.get(word) || []) add(other, 0.8);
    if (typed.length > 2) {
      for (const other of known.keys()) if (other.startsWith(typed)) add(other, 0.7);
    }
    if (!found.size && word.length > 3) {
      const allowed = word.length > 7 ? 2 : 1;
      const likely = [...known.keys(), ...kin.keys()].filter((other) =>
        Math.abs(other.length - word.length) <= allowed
        && likeness(word, other) >= 0.25 && slips(word, other) <= allowed);
      for (const other of likely) {
        add(other, 0.5 * likeness(word, other) + 0.2);
        for (const related of kin.get(other) || []) add(related, 0.4);
      }
    }
    return found;
  };

  const ranked = (text, among) => {
    const asked = terms(text);
    if (!asked.length) return among;
    const last = split(text).at(-1);
    const choices = asked.map((word) => meanings(word, word === stem(last) ? last : ""));
    return among
      .map((one) => {
        let score = 0, met = 0;
        for (const choice of choices) {
          let best = 0;
          for (const [word, surely] of choice) {
            const rare = Math.log(1 + questions.length / (known.get(word) || 1));
            best = Math.max(best, surely * (one.weights.get(word) || 0) * rare);
          }
          if (best > 0) met += 1;
          score += best;
        }
        return { one, score: score * (met / choices.length) ** 2, met };
      })
      .filter(({ met }) => met * 2 >= choices.length && met > 0)
      .sort((left, right) => right.score - left.score)
      .filter(({ score }, _, all) => score >= all[0].score / 4)
      .map(({ one }) => one);
  };

  // --- folding -----------------------------------------------------------------------------
  const reveal = () => {
    const id = decodeURIComponent(location.hash.slice(1));
    let target = id && byId(id);
    if (!target) return;
    const goal = target;
    for (; target; target = target.parentElement) if (target.matches("details")) target.open = true;
    goal.scrollIntoView();
  };
  for (const { element } of questions) element.open = false;
  const contents = document.querySelector("nav details");
  if (contents && !matchMedia("(min-width: 64rem)").matches) contents.open = false;
  addEventListener("hashchange", reveal);
  reveal();
  let folded = [];
  addEventListener("beforeprint", () => {
    folded = [...document.querySelectorAll("main details:not([open])")];
    for (const one of folded) one.open = true;
  });
  addEventListener("afterprint", () => { for (const one of folded) one.open = false; });

  // --- dials -------------------------------------------------------------------------------
  for (const box of document.querySelectorAll(".dials")) {
    const answers = JSON.parse(box.dataset.answers), said = box.querySelector("output");
    const dials = [...box.querySelectorAll("input")];
    const turn = () => {
      for (const dial of dials) {
        const chosen = JSON.parse(dial.dataset.choices)[dial.value];
        dial.setAttribute("aria-valuetext", chosen);
        box.querySelector(`[data-shows="${dial.id}"]`).textContent = chosen;
      }
      said.textContent = answers[dials[0].value][dials[1].value];
    };
    for (const dial of dials) dial.addEventListener("input", turn);
    turn();
    box.hidden = false;
  }

  // --- finder ------------------------------------------------------------------------------
  const finder = byId("finder");
  if (finder) {
    const asked = byId("asked"), place = byId("place"), season = byId("season");
    const count = byId("count"), answers = byId("answers"), every = byId("open-all");
    finder.hidden = false;
    const show = () => {
      const where = place ? place.value : "", when = season ? season.value : "";
      const active = asked.value.trim() || where || when;
      answers.replaceChildren();
      count.textContent = "";
      if (!active) return;
      const among = questions.filter((one) =>
        (!where || one.place === where)
        && (!when || !one.seasons.length || one.seasons.includes(when)));
      const found = ranked(asked.value, among);
      count.textContent = found.length === 0 ? data.words.none
        : found.length === 1 ? data.words.one
        : data.words.many.replace("{count}", found.length);
      for (const one of found.slice(0, 20)) {
        const link = document.createElement("a");
        link.href = `#${one.element.id}`;
        link.textContent = one.heading;
        if (one.place) {
          const note = document.createElement("span");
          note.textContent = one.place;
          link.append(note);
        }
        // The same link twice changes no address, so the answer is opened here as well.
        link.addEventListener("click", () => setTimeout(reveal));
        const item = document.createElement("li");
        item.append(link);
        answers.append(item);
      }
    };
    asked.addEventListener("input", show);
    for (const choice of [place, season]) if (choice) choice.addEventListener("change", show);
    byId("clear").addEventListener("click", () => {
      asked.value = "";
      for (const choice of [place, season]) if (choice) choice.value = "";
      show();
      asked.focus();
    });
    every.addEventListener("click", () => {
      const open = every.dataset.open !== "yes";
      for (const { element } of questions) element.open = open;
      every.dataset.open = open ? "yes" : "no";
      every.textContent = open ? data.words.close_all : data.words.open_all;
    });
  }

  // --- letter size -------------------------------------------------------------------------
  const sizes = document.querySelector(".sizes");
  const kept = "hearthbook-letter-size";
  let size = 0;
  const set = (wanted) => {
    size = Math.max(-1, Math.min(3, wanted));
    document.documentElement.dataset.size = String(size);
    byId("smaller").disabled = size === -1;
    byId("larger").disabled = size === 3;
    try { localStorage.setItem(kept, String(size)); } catch { /* a page opened from a file may not keep anything */ }
  };
  try { size = Number(localStorage.getItem(kept)) || 0; } catch { size = 0; }
  set(size);
  sizes.hidden = false;
  byId("smaller").addEventListener("click", () => set(size - 1));
  byId("larger").addEventListener("click", () => set(size + 1));
})();
