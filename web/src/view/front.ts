// The front: the picture that turns, the sizes and choices, and what a frame of a
// drag changes.
import type { Choice, Glance, Model, Size } from '../engine/types'
import { Camera } from './camera'
import { button, el, inner } from './dom'
import { handle, type Look, type Picture } from './picture'
import { Ruler, Switches } from './ruler'

export interface FrontActs {
  slide(size: Size, to: number, more: boolean): void
  type(size: Size, text: string): void
  take(name: string, word: string): void
  undo(): void
  redo(): void
  reset(): void
  picked?(board: number): void
}

const top: Look = { colour: [0.965, 0.925, 0.835], ink: 0.08 }
const other: Look = { colour: [0.965, 0.965, 0.955], ink: 0.08 }
const shown: Look = { colour: [0.72, 0.82, 0.94], ink: 0.05 }
const light: Look = { colour: [0.985, 0.985, 0.98], ink: 0.6 }

export class Front {
  readonly camera = new Camera()
  private readonly rulers = new Map<string, Ruler>()
  private readonly switches = new Map<string, Switches>()
  private readonly canvas: HTMLCanvasElement | undefined
  private readonly caption = el('p', { class: 'caption quiet', role: 'status' })
  private readonly undo: HTMLButtonElement
  private readonly redo: HTMLButtonElement
  private readonly reset: HTMLButtonElement
  private readonly pencil = el('div', { class: 'pencil', role: 'status' })
  private readonly list: HTMLElement
  private glance: Glance | undefined
  private letters: readonly string[] = []
  private marked = new Set<string>()
  private frame = 0

  constructor(private readonly section: HTMLElement, private readonly picture: Picture | undefined, private readonly acts: FrontActs) {
    const place = section.querySelector<HTMLElement>('[data-picture]')!
    if (picture) {
      this.canvas = el('canvas', { class: 'piece', tabindex: 0, role: 'img' })
      const near = (by: number) => (): void => { this.camera.zoom = Math.max(0.5, Math.min(8, this.camera.zoom * by)); this.wake() }
      place.replaceChildren(this.canvas, el('div', { class: 'views' },
        button('front', () => this.look(0, 0)), button('side', () => this.look(Math.PI / 2, 0)), button('above', () => this.look(0, 1.5)),
        button('corner', () => { this.camera.reset(); this.wake() }),
        button('−', near(1 / 1.25), { 'aria-label': 'smaller' }), button('+', near(1.25), { 'aria-label': 'larger' })), this.caption)
      handle(this.canvas, this.camera, () => this.wake())
      this.picking(this.canvas, picture)
      new ResizeObserver(() => this.wake()).observe(this.canvas)
    }
    this.list = el('div', { class: 'rulers' })
    this.undo = button('undo', () => acts.undo(), { class: 'link' })
    this.redo = button('redo', () => acts.redo(), { class: 'link' })
    this.reset = button('as designed', () => acts.reset(), { class: 'link' })
    section.querySelector('[data-sizes]')!.replaceChildren(this.list, el('p', { class: 'turns' }, this.undo, this.redo, this.reset), this.pencil)
  }

  private look(turn: number, lift: number): void {
    this.camera.reset()
    this.camera.turn = turn
    this.camera.lift = lift
    this.wake()
  }

  /** show takes what is known now. */
  show(g: Glance, settled: boolean, turns: { undo: boolean, redo: boolean, reset: boolean }): void {
    this.glance = g
    const metric = g.units !== 'inches'
    for (const s of g.sizes) {
      let r = this.rulers.get(s.name)
      if (!r) {
        r = new Ruler(s, metric, this.acts)
        this.rulers.set(s.name, r)
        this.list.append(r.element)
      }
      r.show(s, metric)
    }
    for (const c of g.choices) this.choice(c)
    for (const [name, r] of [...this.rulers, ...this.switches]) {
      if (![...g.sizes, ...g.choices].some(x => x.name === name)) {
        r.element.remove()
        this.rulers.delete(name)
        this.switches.delete(name)
      }
    }
    this.undo.disabled = !turns.undo
    this.redo.disabled = !turns.redo
    this.reset.disabled = !turns.reset
    inner(this.section.querySelector('.lead'), g.lead)
    inner(this.section.querySelector('[data-needs]'), g.needs)
    const facts = this.section.querySelector('[data-facts]')
    if (settled) inner(facts, g.facts)
    else {
      // The first sentence is true at once; the others wait, and are set lighter.
      const first = el('div')
      first.innerHTML = g.facts
      const now = facts?.querySelector('p > span')
      const then = first.querySelector('p > span')
      if (now && then) now.innerHTML = then.innerHTML
    }
    inner(this.pencil, g.errors > 0 ? `<h2 class="small">Mend this</h2>${g.mend}` : '')
    this.canvas?.setAttribute('aria-label', `${g.title}. A picture of ${g.boards.length} boards; turn it with the arrow keys, plus and minus make it larger and smaller.`)
    this.wake()
  }

  private choice(c: Choice): void {
    let s = this.switches.get(c.name)
    if (!s) {
      s = new Switches(c, (name, word) => this.acts.take(name, word))
      this.switches.set(c.name, s)
      this.list.append(s.element)
    }
    s.show(c)
  }

  know(model: Model): void { this.letters = model.letters }

  /** mark shows some boards by their ids, and the others lightly; none shows all as they are. */
  mark(ids: readonly string[]): void {
    if (ids.length === 0 && this.marked.size === 0) return
    this.marked = new Set(ids)
    this.wake()
  }

  wake(): void {
    if (this.frame === 0 && this.canvas) this.frame = requestAnimationFrame(() => { this.frame = 0; this.draw() })
  }

  draw(): void {
    const { glance: g, picture, canvas } = this
    if (!g || !picture || !canvas || g.low.length === 0 || picture.count !== g.boards.length) return
    performance.mark('paint')
    picture.draw(canvas, this.view(g, canvas), i => {
      const b = g.boards[i]
      if (!b) return undefined
      if (this.marked.size > 0) return this.marked.has(b.id) ? shown : light
      return b.top ? top : other
    }, [], 1.15)
    performance.measure('painted', 'paint')
  }

  private view(g: Glance, canvas: HTMLElement): Float32Array {
    return this.camera.matrix(g.low, g.high, Math.max(0.1, canvas.clientWidth / Math.max(1, canvas.clientHeight)))
  }

  private picking(canvas: HTMLCanvasElement, picture: Picture): void {
    let from = { x: 0, y: 0 }
    canvas.addEventListener('pointerdown', e => { from = { x: e.clientX, y: e.clientY } })
    canvas.addEventListener('click', e => {
      const g = this.glance
      if (!g || Math.hypot(e.clientX - from.x, e.clientY - from.y) > 4) return
      const box = canvas.getBoundingClientRect()
      const i = picture.pick(this.view(g, canvas), (e.clientX - box.left) / box.width * 2 - 1, 1 - (e.clientY - box.top) / box.height * 2)
      const b = i === undefined ? undefined : g.boards[i]
      if (i === undefined || !b) {
        this.caption.replaceChildren()
        this.mark([])
        return
      }
      this.mark([b.id])
      const letter = this.letters[i]
      const there = letter && document.getElementById(`sheet-${letter}`) ? `#sheet-${letter}` : '#parts'
      this.caption.replaceChildren(`The ${b.called}`, ...(letter ? [', part ', el('a', { href: there }, letter)] : []), '.')
      this.acts.picked?.(i)
    })
  }
}
