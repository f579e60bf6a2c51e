// Making elements, in few words.

type Attrs = Record<string, string | boolean | number | undefined>

export function el<K extends keyof HTMLElementTagNameMap>(tag: K, attrs: Attrs = {}, ...inside: (Node | string)[]): HTMLElementTagNameMap[K] {
  const e = document.createElement(tag)
  attributes(e, attrs)
  e.append(...inside)
  return e
}

export function svg<K extends keyof SVGElementTagNameMap>(tag: K, attrs: Attrs = {}, ...inside: (Node | string)[]): SVGElementTagNameMap[K] {
  const e = document.createElementNS('http://www.w3.org/2000/svg', tag)
  attributes(e, attrs)
  e.append(...inside)
  return e
}

function attributes(e: Element, attrs: Attrs): void {
  for (const [k, v] of Object.entries(attrs)) {
    if (v === undefined || v === false) continue
    e.setAttribute(k, v === true ? '' : String(v))
  }
}

export function button(says: string, done: () => void, attrs: Attrs = {}): HTMLButtonElement {
  const b = el('button', { type: 'button', ...attrs }, says)
  b.addEventListener('click', done)
  return b
}

/** inner puts HTML of the engine into an element, if it is not there already. */
export function inner(e: Element | null | undefined, html: string): boolean {
  if (!e || was.get(e) === html) return false
  was.set(e, html)
  e.innerHTML = html
  return true
}
const was = new WeakMap<Element, string>()
