// Sizes as pieces of a tape measure with a mark to slide, choices as switches.
import type { Choice, Size } from '../engine/types'
import { snapped } from '../model/choices'
import { el, svg } from './dom'

export interface RulerActs {
  slide(size: Size, to: number, more: boolean): void
  type(size: Size, text: string): void
}

/** How a stretch of tape is marked: a number every `major`, a mark every `minor`, in counts of `one`. */
interface Marks { one: number, major: number, minor: number, half: number, feet: boolean }

function marks(s: Size, metric: boolean): Marks {
  let one = 1
  let ladder: readonly (readonly [number, number, number])[] = [[1, 1, 1], [2, 1, 1], [5, 1, 5], [10, 1, 5], [20, 5, 10], [50, 10, 10]]
  let feet = false
  if (s.unit === 'mm' && !metric) {
    one = 25.4
    const long = (s.most - s.least) / one
    feet = long > 30
    ladder = [[1, 1 / 8, 1 / 2], [2, 1 / 4, 1], [3, 1 / 2, 1], [4, 1, 2], [6, 1, 3], [12, 3, 6], [24, 6, 12], [48, 12, 24]]
    if (feet) ladder = ladder.filter(l => l[0] % 12 === 0)
  } else if (s.unit === 'mm') {
    ladder = [[10, 1, 5], [20, 5, 10], [50, 10, 10], [100, 10, 50], [200, 50, 100], [500, 100, 100], [1000, 100, 500]]
  }
  const long = (s.most - s.least) / one
  const [major, minor, half] = ladder.find(l => long / l[0] <= 10.5) ?? ladder[ladder.length - 1]!
  return { one, major, minor, half, feet }
}

const width = 300
const pad = 9
const high = 30

export class Ruler {
  readonly element: HTMLElement
  private size: Size
  private readonly tape: SVGSVGElement
  private readonly mark: SVGGElement
  private readonly typed: HTMLInputElement
  private readonly says: HTMLElement
  private drawn = ''

  constructor(size: Size, private metric: boolean, private readonly acts: RulerActs) {
    this.size = size
    const id = `size-${size.name}`
    this.says = el('label', { for: `${id}-typed` })
    this.typed = el('input', { id: `${id}-typed`, class: 'typed', type: 'text', autocomplete: 'off', spellcheck: 'false', enterkeyhint: 'done' })
    this.typed.addEventListener('change', () => acts.type(this.size, this.typed.value.trim()))
    this.mark = svg('g', { class: 'mark' }, svg('path', { d: 'M-5.5 0H5.5L0 9Z' }), svg('path', { d: 'M0 8V20', class: 'hair' }))
    this.tape = svg('svg', { viewBox: `0 0 ${width} 45`, class: 'tape', role: 'slider', tabindex: 0 })
    this.tape.addEventListener('pointerdown', e => {
      this.tape.setPointerCapture(e.pointerId)
      this.tape.focus({ preventScroll: true })
      this.slide(e, true)
      e.preventDefault()
    })
    this.tape.addEventListener('pointermove', e => { if (this.tape.hasPointerCapture(e.pointerId)) this.slide(e, true) })
    this.tape.addEventListener('pointerup', e => { if (this.tape.hasPointerCapture(e.pointerId)) this.slide(e, false) })
    this.tape.addEventListener('keydown', e => this.key(e))
    this.element = el('div', { class: 'ruler', id }, el('div', { class: 'said' }, this.says, this.typed), this.tape)
    this.show(size, metric)
  }

  private slide(e: PointerEvent, more: boolean): void {
    const box = this.tape.getBoundingClientRect()
    const x = (e.clientX - box.left) / box.width * width
    this.go(this.size.least + (x - pad) / (width - 2 * pad) * (this.size.most - this.size.least), more)
  }

  private go(v: number, more: boolean): void {
    const to = snapped(this.size, v)
    if (more && Math.abs(to - this.size.is) < 1e-9) return
    const size = this.size
    this.show({ ...size, is: to }, this.metric) // the mark follows the finger; the engine follows the mark
    this.acts.slide(size, to, more)
  }

  private key(e: KeyboardEvent): void {
    const s = this.size
    const step = s.step > 0 ? s.step : (s.most - s.least) / 100
    const to = {
      ArrowRight: s.is + step, ArrowUp: s.is + step, ArrowLeft: s.is - step, ArrowDown: s.is - step,
      PageUp: s.is + 10 * step, PageDown: s.is - 10 * step, Home: s.least, End: s.most,
    }[e.key]
    if (to === undefined) return
    e.preventDefault()
    this.go(to, false)
  }

  show(s: Size, metric: boolean): void {
    this.size = s
    this.metric = metric
    const name = s.says || s.name.replaceAll('_', ' ')
    if (this.says.textContent !== name) this.says.textContent = name
    if (document.activeElement !== this.typed) this.typed.value = s.text
    this.typed.size = Math.max(4, s.text.length)
    this.typed.classList.toggle('other', Math.abs(s.is - s.default) > 1e-6)
    for (const [k, v] of Object.entries({ label: name, valuemin: s.least, valuemax: s.most, valuenow: s.is, valuetext: s.text })) this.tape.setAttribute(`aria-${k}`, String(v))
    const key = [s.least, s.most, s.unit, metric].join()
    if (key !== this.drawn) {
      this.drawn = key
      this.tape.replaceChildren(...this.face(), this.mark)
    }
    this.mark.setAttribute('transform', `translate(${this.x(s.is).toFixed(2)} 4)`)
  }

  private x(v: number): number {
    const { least, most } = this.size
    return pad + (most > least ? (v - least) / (most - least) : 0.5) * (width - 2 * pad)
  }

  /** face draws the tape. */
  private face(): SVGElement[] {
    const s = this.size
    const m = marks(s, this.metric)
    const top = 13
    const out: SVGElement[] = [svg('rect', { x: 0.5, y: top, width: width - 1, height: high - 0.5, class: 'body' })]
    const first = Math.ceil(s.least / m.one / m.minor - 1e-6), last = Math.floor(s.most / m.one / m.minor + 1e-6)
    const whole = (v: number, of: number): boolean => Math.abs(v / of - Math.round(v / of)) < 1e-6
    let d = ''
    for (let i = first; i <= last; i++) {
      const v = i * m.minor
      const x = this.x(v * m.one).toFixed(2)
      const long = whole(v, m.major) ? 15 : whole(v, m.half) ? 9 : 6
      d += `M${x} ${top}v${long}`
      if (whole(v, m.major)) {
        const says = m.feet ? String(Math.round(v / 12)) : String(Math.round(v))
        out.push(svg('text', { x, y: top + 26, 'text-anchor': 'middle' }, says))
      }
    }
    out.push(svg('path', { d, class: 'marks' }))
    return out
  }
}

/** switches is a choice as a row of words, one of them taken. */
export class Switches {
  readonly element: HTMLElement
  private readonly inputs: HTMLInputElement[]

  constructor(c: Choice, take: (name: string, word: string) => void) {
    this.inputs = c.of.map(word => {
      const i = el('input', { type: 'radio', name: `choice-${c.name}`, value: word })
      i.addEventListener('change', () => { if (i.checked) take(c.name, word) })
      return i
    })
    this.element = el('fieldset', { class: 'switches', id: `choice-${c.name}` }, el('legend', {}, c.says || c.name.replaceAll('_', ' ')),
      ...this.inputs.map((i, k) => el('label', {}, i, el('span', {}, c.of[k]!))))
    this.show(c)
  }

  show(c: Choice): void {
    for (const i of this.inputs) i.checked = i.value === c.is
  }
}
