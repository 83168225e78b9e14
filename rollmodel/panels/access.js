// Gives controls the names that assistive technology reads, and keeps them while views are redrawn.
// `names` maps a CSS selector inside the panel ("" is the panel itself) to attributes.

function apply(root, names) {
  for (const [selector, attributes] of Object.entries(names)) {
    const nodes = selector === "" ? [root] : root.querySelectorAll(selector);
    for (const node of nodes)
      for (const [key, value] of Object.entries(attributes))
        if (node.getAttribute(key) !== value) node.setAttribute(key, value);
  }
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
    refresh();
  };
  el.style.display = "none";
  attach();
  model.on("change:names", refresh);
  return () => { observer.disconnect(); model.off("change:names", refresh); };
}

export default { render };
