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

function render({ model, el }) {
  let root = null;
  const refresh = () => root && apply(root, model.get("names"));
  const observer = new MutationObserver(refresh);
  const attach = () => {
    root = el.parentElement && el.parentElement.closest(".rm-root");
    if (!root) return setTimeout(attach, 50);
    // A view gets its classes after it is put in the page, so both are watched.
    observer.observe(root, { childList: true, subtree: true, attributes: true, attributeFilter: ["class"] });
    root.addEventListener("focusin", keepKeys);
    refresh();
  };
  el.style.display = "none";
  attach();
  model.on("change:names", refresh);
  return () => { observer.disconnect(); model.off("change:names", refresh); };
}

export default { render };
