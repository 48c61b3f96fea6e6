/* Finds words in this page. Without it the page is whole; it fetches nothing and keeps nothing. */
(() => {
  "use strict";
  const MOST = 40;
  const ROUND = 70;
  const field = document.getElementById("search-words");
  const told = document.getElementById("search-told");
  const list = document.getElementById("search-found");
  const plain = (text) =>
    text.normalize("NFKD").replace(/[\u0300-\u036f]/g, "").replace(/\s+/g, " ").toLowerCase();
  let index = null;

  /* Every line of the page with the heading it stands under, made when first asked for. */
  const made = () => {
    let under = "";
    const lines = [];
    const asked = "main :is(h1, h2, h3, p, li, tr, figcaption, dt, dd, svg text)";
    for (const place of document.querySelectorAll(asked)) {
      if (place.closest("nav, .search, td p, li p")) continue;
      const text = place.textContent.replace(/\s+/g, " ").trim();
      if (/^H[123]$/.test(place.tagName)) under = text;
      if (text) lines.push({ place, under, text, words: plain(`${under} ${text}`) });
    }
    return lines;
  };

  const around = (text, word) => {
    const at = Math.max(0, plain(text).indexOf(word));
    const from = Math.max(0, at - ROUND / 2);
    const cut = text.slice(from, from + ROUND);
    return (from ? "… " : "") + cut + (from + ROUND < text.length ? " …" : "");
  };

  const shown = (line, number, word) => {
    const at = line.place.closest("svg") || line.place;
    at.id ||= `found-${number}`;
    const link = document.createElement("a");
    link.href = `#${at.id}`;
    const head = document.createElement("b");
    head.textContent = line.under;
    link.append(head, line.text === line.under ? "" : `: ${around(line.text, word)}`);
    const item = document.createElement("li");
    item.append(link);
    return item;
  };

  const search = () => {
    const words = plain(field.value).split(" ").filter(Boolean);
    list.replaceChildren();
    told.textContent = "";
    if (!words.length) return;
    index ??= made();
    const own = (line) => words.every((word) => plain(line.text).includes(word));
    const hits = index.filter((line) => words.every((word) => line.words.includes(word)));
    hits.sort((one, other) => own(other) - own(one));
    list.append(...hits.slice(0, MOST).map((line, n) => shown(line, index.indexOf(line), words[0])));
    const said = field.form.dataset;
    const line = hits.length > MOST ? said.more : hits.length ? said.found : said.nothing;
    told.textContent = line.replace("{number}", hits.length).replace("{most}", MOST);
  };

  field.addEventListener("input", search);
  field.form.addEventListener("submit", (event) => {
    event.preventDefault();
    search();
    list.querySelector("a")?.focus();
  });
  document.querySelector(".search").hidden = false;
})();
