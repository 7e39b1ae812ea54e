// What a browser makes of the words in elements: where they are, what lies over them, their looks.
(selector) => {
  const chainOf = (element) => {
    const chain = [];
    for (let each = element; each; each = each.parentElement) chain.push(each);
    return chain;
  };
  const textsIn = (root) => {
    const walker = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
    const texts = [];
    while (walker.nextNode()) {
      const text = walker.currentNode;
      const isBeside = text.parentElement.closest(".tl-notice__more, .tl-unseen, b[hidden], svg");
      if (text.data.trim() && !isBeside) texts.push(text);
    }
    return texts;
  };
  const isOnTop = (element, box) => {
    const x = box.left + Math.min(box.width / 2, 40);
    const top = document.elementFromPoint(x, box.top + box.height / 2);
    return top !== null && (element.contains(top) || top.contains(element)) &&
      !(top !== element && top.contains(element) && top.matches("html, body"));
  };
  const look = (text) => {
    const element = text.parentElement;
    element.scrollIntoView({ block: "center", behavior: "instant" });
    const range = document.createRange();
    range.selectNodeContents(text);
    const boxes = [...range.getClientRects()].filter((box) => box.width > 2 && box.height > 4);
    const style = getComputedStyle(element);
    const width = document.documentElement.clientWidth;
    return {
      isThere: boxes.length > 0 && style.visibility === "visible" &&
        element.checkVisibility({ contentVisibilityAuto: true }),
      isInside: boxes.every((box) => box.left >= -1 && box.right <= width + 1 && box.bottom > 0),
      isOnTop: boxes.every((box) => isOnTop(element, box)),
      pixels: parseFloat(style.fontSize),
      colour: style.webkitTextFillColor,
      grounds: chainOf(element).map((each) => {
        const its = getComputedStyle(each);
        return [its.backgroundColor, parseFloat(its.opacity), its.backgroundImage];
      }),
    };
  };
  return [...document.querySelectorAll(selector)].map((root) => textsIn(root).map(look));
}
