/* Comfort only: every page works without this file. It shows results while one types, says how a date is read,
   and brings the table of all places when it is unfolded. It loads nothing but our own pages. */
"use strict";

const later = (wait, run) => {
  let timer = 0;
  return (...given) => { clearTimeout(timer); timer = setTimeout(() => run(...given), wait); };
};

/* A form with data-live="ID": its answer replaces the element of that id as soon as something was typed. */
const live = (form) => {
  let asked = 0;
  const part = form.dataset.part || "grid";
  const show = async () => {
    const mine = ++asked, data = new URLSearchParams(new FormData(form));
    for (const [name, value] of [...data]) if (!value) data.delete(name, value);
    const address = form.getAttribute("action") + (data.size ? "?" + data : "");
    const answer = await fetch(address + (data.size ? "&" : "?") + "part=" + part, { headers: { accept: "text/html" } });
    if (mine !== asked || !answer.ok) return;
    const made = new DOMParser().parseFromString(await answer.text(), "text/html").getElementById(form.dataset.live);
    const old = document.getElementById(form.dataset.live);
    if (!made || !old) return;
    const focus = old.contains(document.activeElement) ? document.activeElement.id : "";
    old.replaceWith(made);
    if (focus && document.getElementById(focus)) document.getElementById(focus).focus();
    const told = made.querySelector("p[role=status], .summary tbody, .empty"), heard = form.querySelector(".heard");
    if (heard) heard.textContent = told ? told.textContent.replace(/\s+/g, " ").trim() : "";
    history.replaceState(null, "", address);
  };
  const soon = later(220, show);
  for (const kind of ["input", "change"])
    document.addEventListener(kind, (event) => { if (event.target.form === form && event.target.name !== "find") soon(); });
};

/* A date by plain choices: its written form and meaning stand beneath it while one types. */
const dated = (field) => {
  const name = field.dataset.date, out = field.querySelector(".reading");
  const part = (end) => document.getElementById(name + "." + end).value;
  const read = later(220, async () => {
    const answer = await fetch("/date?" + new URLSearchParams({ how: part("how"), one: part("one"), two: part("two") }));
    if (!answer.ok) return;
    const found = await answer.json();
    out.textContent = found.error || (found.written ? "Written form " + found.written + ": " + found.reading : "");
  });
  for (const kind of ["input", "change"]) field.addEventListener(kind, read);
};

/* A fold with data-load: what stands behind its link is brought in when it is opened. */
const unfolded = (fold) => fold.addEventListener("toggle", async () => {
  if (!fold.open || !fold.dataset.load) return;
  const address = fold.dataset.load;
  fold.dataset.load = "";
  const answer = await fetch(address);
  if (!answer.ok) return;
  const made = new DOMParser().parseFromString(await answer.text(), "text/html").body.firstElementChild;
  if (made) fold.append(made);
});

for (const form of document.querySelectorAll("form[data-live]")) live(form);
for (const field of document.querySelectorAll("[data-date]")) dated(field);
for (const fold of document.querySelectorAll("details[data-load]")) unfolded(fold);
