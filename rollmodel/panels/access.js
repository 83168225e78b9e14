// Gives controls what assistive technology and the keyboard need, and keeps it while views are redrawn.
// `names` maps a CSS selector inside the panel ("" is the panel itself) to attributes.

function apply(root, names) {
  for (const [selector, attributes] of Object.entries(names)) {
    const nodes = selector === "" ? [root] : root.querySelectorAll(selector);
    for (const node of nodes)
      for (const [key, value] of Object.entries(attributes))
        if (node.getAttribute(key) !== value) node.setAttribute(key, value);
  }
  joinRadios(root);
  sleepOrWake(root);
}

// What looks alive is dead once Python has stopped: the widgets then mark their views. Say so at the top, and
// take the controls out of reach; typed text can still be copied. All of it goes when Python answers again.
function sleepOrWake(root) {
  const gone = root.classList.contains("jupyter-widgets-disconnected");
  for (const control of root.querySelectorAll(".noUi-handle, select, button, input:not([type=text])")) {
    // A slider that waits for a prediction is passed over by Tab, as a disabled box is.
    const out = gone || (control.matches(".noUi-handle") && control.closest("[disabled]") !== null);
    if (control.inert !== out) control.inert = out;
  }
  const note = root.querySelector(":scope > .rm-asleep");
  if (gone && !note) root.prepend(noteOfSleep());
  else if (!gone && note) note.remove();
}

function noteOfSleep() {
  const note = document.createElement("p");
  note.className = "rm-asleep";
  note.setAttribute("role", "status");
  note.textContent = "This panel is asleep: Python has stopped or was started afresh. "
    + "Run all cells again, from the top.";
  return note;
}

// Radio buttons with one name are one group: arrow keys move inside it, Tab leaves it. The name is drawn,
// not counted: every panel on the page runs a copy of this file of its own, with a count of its own.
function joinRadios(root) {
  for (const box of root.querySelectorAll(".widget-radio-box")) {
    if (!box.dataset.group) box.dataset.group = `rm-group-${Math.random().toString(36).slice(2)}`;
    for (const radio of box.querySelectorAll("input[type=radio]"))
      if (radio.name !== box.dataset.group) radio.name = box.dataset.group;
  }
}

// Keys pressed in a control belong to it. JupyterLab would take arrows and letters for commands of its
// own ("d" twice deletes the cell) unless the focused element itself says no.
function keepKeys(event) {
  event.target.setAttribute("data-lm-suppress-shortcuts", "true");
}

// The way out by keyboard: Escape goes to the frame of the panel's own cell, Shift + Enter on to the next cell.
// Without this Shift + Enter would press the button that has the focus.
function leave(event) {
  const cell = event.target.closest(".jp-Cell");
  const onwards = event.key === "Enter" && event.shiftKey;
  if (!cell || !(onwards || event.key === "Escape")) return;
  const next = cell.nextElementSibling;
  const goal = onwards && next && next.matches(".jp-Cell") ? next : cell;
  event.preventDefault();
  event.stopPropagation();
  goal.focus();
  goal.scrollIntoView({ block: "nearest" });
}

// The element may have been asked for only just now: it is waited for, a second at most. Whoever has gone on to
// another control meanwhile keeps the focus there.
function focusOn(root, selector, before = document.activeElement, tries = 20) {
  const found = root.querySelector(selector), now = document.activeElement;
  if (now !== before && now !== document.body) return;
  if (found && found.offsetParent !== null) return found.focus();
  if (tries) setTimeout(() => focusOn(root, selector, before, tries - 1), 50);
}

function render({ model, el }) {
  let root = null;
  const refresh = () => root && apply(root, model.get("names"));
  const observer = new MutationObserver(refresh);
  const attach = () => {
    root = el.parentElement && el.parentElement.closest(".rm-root");
    if (!root) return setTimeout(attach, 50);
    // A view gets its classes after it is put in the page, so both are watched.
    const attributeFilter = ["class", "disabled"];
    observer.observe(root, { childList: true, subtree: true, attributes: true, attributeFilter });
    root.addEventListener("focusin", keepKeys);
    root.addEventListener("keydown", leave, true);
    refresh();
  };
  el.style.display = "none";
  attach();
  const told = (message) => root && message.focus && focusOn(root, message.focus);
  model.on("change:names", refresh);
  model.on("msg:custom", told);
  return () => { observer.disconnect(); model.off("change:names", refresh); model.off("msg:custom", told); };
}

export default { render };
