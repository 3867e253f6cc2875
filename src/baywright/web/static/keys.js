// Keys of the bench, and where the focus is after a step. Every page works without this file.
(function () {
  "use strict";

  const KEPT = "baywright.keys";

  function on() {
    try {
      return localStorage.getItem(KEPT) !== "off";
    } catch {
      return true;
    }
  }

  function remember(state) {
    try {
      localStorage.setItem(KEPT, state);
    } catch {
      // Nothing is remembered where the browser keeps nothing.
    }
  }

  function label() {
    const button = document.getElementById("keys-switch");
    if (button) {
      button.hidden = false;
      button.textContent = on() ? button.dataset.off : button.dataset.on;
    }
  }

  function writing(target) {
    return target.closest("input, textarea, select") !== null;
  }

  // The place whose middle lies nearest in a direction; one off that line counts twice as far.
  function neighbour(from, key) {
    const box = from.getBoundingClientRect();
    const x = box.left + box.width / 2;
    const y = box.top + box.height / 2;
    const across = key === "ArrowLeft" || key === "ArrowRight";
    const sign = key === "ArrowLeft" || key === "ArrowUp" ? -1 : 1;
    let best = null;
    let least = Infinity;
    for (const other of document.querySelectorAll(".front .place")) {
      const theirs = other.getBoundingClientRect();
      const dx = theirs.left + theirs.width / 2 - x;
      const dy = theirs.top + theirs.height / 2 - y;
      const along = sign * (across ? dx : dy);
      const far = along + 2 * Math.abs(across ? dy : dx);
      if (other !== from && theirs.width > 0 && along > 1 && far < least) {
        best = other;
        least = far;
      }
    }
    return best;
  }

  function pressed(event) {
    const arrows = ["ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown"];
    if (event.target.matches(".place") && arrows.includes(event.key)) {
      const next = neighbour(event.target, event.key);
      if (next) {
        event.preventDefault();
        next.focus();
      }
      return;
    }
    const bench = document.querySelector(".bench");
    if (!bench || writing(event.target) || event.ctrlKey || event.metaKey || event.altKey) {
      return;
    }
    if (event.key === "Escape") {
      const current = document.querySelector(".places a[aria-current]");
      if (current) {
        current.focus();
      }
    } else if (on()) {
      single(event, bench);
    }
  }

  function single(event, bench) {
    let found = null;
    if (/^[1-9]$/.test(event.key)) {
      found = bench.querySelectorAll(".offer a.fit")[Number(event.key) - 1];
    } else if (event.key === "/") {
      found = document.querySelector('.top nav a[href^="/ask/"]');
    } else if (/^[a-z=]$/.test(event.key)) {
      found = bench.querySelector(`[data-key="${event.key}"]`);
    }
    if (found) {
      event.preventDefault();
      found.click();
    }
  }

  // An option that is pointed at or has the focus is shown in the drawing and on the limits; the
  // same is behind its link, for pages without script.
  const PATIENCE = 350;
  const SHOWN = ["drawing", "slim-drawing", "gauges"];
  let waiting = null;
  let asked = "";

  function considered(event) {
    const option = event.target.closest ? event.target.closest("[data-look]") : null;
    clearTimeout(waiting);
    if (option && option.dataset.look !== asked) {
      waiting = setTimeout(() => show(option.dataset.look), PATIENCE);
    }
  }

  async function show(look) {
    asked = look;
    const address = new URL(window.location.href);
    address.searchParams.set("look", look);
    const answer = await fetch(address);
    const found = new DOMParser().parseFromString(await answer.text(), "text/html");
    if (!answer.ok || asked !== look) {
      return;
    }
    for (const name of SHOWN) {
      const [ours, theirs] = [document.getElementById(name), found.getElementById(name)];
      if (ours && theirs) {
        ours.replaceWith(theirs);
        if (window.htmx) {
          window.htmx.process(theirs);
        }
      }
    }
  }

  // The title follows the page, and the focus goes to the detail when what had it is gone.
  function swapped() {
    asked = new URL(window.location.href).searchParams.get("look") || "";
    clearTimeout(waiting);
    label();
    if (document.activeElement === document.body) {
      const detail = document.getElementById("page");
      if (detail) {
        detail.focus({ preventScroll: true });
      }
    }
    const said = document.getElementById("said");
    if (said) {
      const words = said.textContent;
      said.textContent = "";
      setTimeout(() => { said.textContent = words; }, 60);
    }
  }

  document.addEventListener("keydown", pressed);
  document.addEventListener("mouseover", considered);
  document.addEventListener("focusin", considered);
  document.addEventListener("htmx:afterSettle", swapped);
  document.addEventListener("DOMContentLoaded", label);
  document.addEventListener("click", (event) => {
    if (event.target.id === "keys-switch") {
      remember(on() ? "off" : "on");
      label();
    }
  });
})();
