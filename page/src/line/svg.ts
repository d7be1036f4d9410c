// The server's drawings, put in place: parsed as XML, so that nothing in them can be markup of the page.     (line/svg.ts)
const SPACE = "http://www.w3.org/2000/svg";

/** What is inside a whole SVG document, for an element of the page. */
export function contentOf(svg: string): DocumentFragment {
  return adopted(new DOMParser().parseFromString(svg, "image/svg+xml").documentElement);
}

/** The same of a piece of SVG without its root. */
export function pieceOf(svg: string): DocumentFragment {
  return contentOf(`<svg xmlns="${SPACE}">${svg}</svg>`);
}

function adopted(root: Element): DocumentFragment {
  const fragment = document.createDocumentFragment();
  if (root.namespaceURI !== SPACE || root.localName !== "svg") return fragment;
  const group = document.createElementNS(SPACE, "g");
  for (const name of ["font-family", "stroke-linejoin", "stroke-linecap"]) {
    const value = root.getAttribute(name);
    if (value !== null) group.setAttribute(name, value);
  }
  for (const child of [...root.childNodes]) {
    const unwanted = child instanceof Element && ["title", "desc", "script", "style"].includes(child.localName);
    if (!unwanted) group.append(document.importNode(child, true));
  }
  fragment.append(group);
  return fragment;
}
