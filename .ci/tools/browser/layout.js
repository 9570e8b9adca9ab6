// What is wrong with the layout of the page that is shown: one sentence a fault.
(() => {
  const faults = [];
  const shown = e => {
    for (let at = e; at; at = at.parentElement) {
      const style = getComputedStyle(at);
      if (style.display === "none" || style.visibility === "hidden") return false;
      if (at.tagName === "DETAILS" && !at.open && !(at.querySelector("summary") || at).contains(e)) return false;
    }
    return true;
  };
  const short = text => text.trim().replace(/\s+/g, " ").slice(0, 40);
  const boxes = []; // of all lines of text, with the element that they are in
  let texts = 0, drawings = 0;

  for (const svg of document.querySelectorAll("svg.pic")) {
    if (!shown(svg)) continue;
    if (!svg.classList.contains("mark")) drawings++;
    const frame = svg.getBoundingClientRect();
    for (const text of svg.querySelectorAll("text")) {
      const box = text.getBoundingClientRect();
      if (box.width === 0) continue;
      texts++;
      boxes.push({left: box.left, right: box.right, top: box.top, bottom: box.bottom, what: text.textContent, svg});
      const size = parseFloat(getComputedStyle(text).fontSize) * text.getScreenCTM().a;
      if (size < 9.5) faults.push(`${size.toFixed(1)} px: ${short(text.textContent)}`);
      if (box.left < frame.left - 1 || box.right > frame.right + 1 || box.top < frame.top - 1 || box.bottom > frame.bottom + 1)
        faults.push(`outside its drawing: ${short(text.textContent)}`);
    }
  }

  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node; (node = walker.nextNode());) {
    const parent = node.parentElement;
    if (!node.textContent.trim() || parent.closest("svg") || !shown(parent)) continue;
    const size = parseFloat(getComputedStyle(parent).fontSize);
    if (size < 9.5) faults.push(`${size.toFixed(1)} px: ${short(node.textContent)}`);
    const range = document.createRange();
    range.selectNodeContents(node);
    for (const box of range.getClientRects())
      if (box.width > 0 && box.height > 0) {
        texts++;
        boxes.push({left: box.left, right: box.right, top: box.top, bottom: box.bottom, what: node.textContent, node});
      }
  }

  boxes.sort((a, b) => a.top - b.top);
  for (let i = 0; i < boxes.length; i++)
    for (let k = i + 1; k < boxes.length && boxes[k].top < boxes[i].bottom - 3; k++) {
      const a = boxes[i], b = boxes[k];
      if (a.node && a.node === b.node) continue;
      const wide = Math.min(a.right, b.right) - Math.max(a.left, b.left);
      const tall = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
      if (wide > 1 && tall > 3) faults.push(`over each other: ${short(a.what)} / ${short(b.what)}`);
    }

  const scroll = document.documentElement.scrollWidth - document.documentElement.clientWidth;
  if (scroll > 0) faults.push(`scrolls ${scroll} px sideways`);
  return {texts, drawings, faults: [...new Set(faults)]};
})()
