// What a reader sets: sizes and choices, their own boards and saw, the edition.
// It never changes in place; a new one is made and the old one kept, so that undo
// is going back. It is also what the address of the page says after #/.
import type { Request, Size } from '../engine/types'

export interface Choices {
  readonly set: Readonly<Record<string, string>>
  readonly boards: Readonly<Record<string, string>> // stock: thickness x width
  readonly have: readonly string[]
  readonly kerf: string
  readonly squared: string
  readonly tape: string
  readonly region: string
  readonly paper: string
  readonly prices: string
}

export const asDesigned: Choices = { set: {}, boards: {}, have: [], kerf: '', squared: '', tape: '', region: '', paper: '', prices: '' }

const words = ['kerf', 'squared', 'tape', 'region', 'paper', 'prices'] as const

/** toAddress writes what differs from the design, as the part of a link after #. */
export function toAddress(c: Choices): string {
  const out: string[] = []
  const put = (k: string, v: string): void => { out.push(`${encodeURIComponent(k)}=${encodeURIComponent(v).replaceAll('%20', '+')}`) }
  for (const k of Object.keys(c.set).sort()) put(k, c.set[k]!)
  for (const k of Object.keys(c.boards).sort()) put(`board.${k}`, c.boards[k]!)
  for (const h of c.have) put('have', h)
  for (const w of words) if (c[w]) put(`.${w}`, c[w])
  return out.length > 0 ? `#/${out.join('&')}` : ''
}

/** fromAddress reads a link; what it does not know it leaves out. */
export function fromAddress(hash: string): Choices {
  if (!hash.startsWith('#/')) return asDesigned
  const set: Record<string, string> = {}
  const boards: Record<string, string> = {}
  const have: string[] = []
  const rest: Partial<Record<(typeof words)[number], string>> = {}
  for (const pair of hash.slice(2).split('&')) {
    const at = pair.indexOf('=')
    if (at < 1) continue
    let k: string
    let v: string
    try {
      k = decodeURIComponent(pair.slice(0, at))
      v = decodeURIComponent(pair.slice(at + 1).replaceAll('+', '%20'))
    } catch {
      continue
    }
    const word = words.find(w => k === `.${w}`)
    if (word) rest[word] = v
    else if (k.startsWith('board.')) boards[k.slice(6)] = v
    else if (k === 'have') have.push(v)
    else set[k] = v
  }
  return { ...asDesigned, ...rest, set, boards, have }
}

/** request puts the choices into the words of the engine. */
export function request(c: Choices): Omit<Request, 'want'> {
  return {
    set: Object.keys(c.set).sort().map(k => [k, c.set[k]!]),
    measured: Object.keys(c.boards).sort().map(k => `${k} = ${c.boards[k]!}`),
    have: [...c.have], kerf: c.kerf, squared: c.squared, tape: c.tape, region: c.region, paper: c.paper, prices: c.prices,
  }
}

/** withSize sets a size, or leaves it out where it is as designed. */
export function withSize(c: Choices, name: string, value: string | undefined): Choices {
  const set = { ...c.set }
  if (value === undefined) delete set[name]
  else set[name] = value
  return { ...c, set }
}

/** snapped is the value of a size nearest v that its steps allow. */
export function snapped(s: Size, v: number): number {
  const held = Math.min(s.most, Math.max(s.least, v))
  if (s.step <= 0) return held
  return Math.min(s.most, s.least + Math.round((held - s.least) / s.step) * s.step)
}

/** written is a value of a size as the engine reads it: exact, in its unit. */
export function written(s: Size, v: number): string {
  const digits = Number(v.toFixed(6)).toString()
  return s.unit === 'mm' ? `${digits} mm` : digits + s.unit
}

/** A History goes back and forth. Steps of one drag count once. */
export class History<T> {
  private readonly past: T[] = []
  private readonly future: T[] = []
  private dragging = false

  constructor(private at: T) {}

  get now(): T { return this.at }
  get canUndo(): boolean { return this.past.length > 0 }
  get canRedo(): boolean { return this.future.length > 0 }

  /** go moves on; while more is true the steps are one. */
  go(to: T, more = false): void {
    if (!this.dragging) this.past.push(this.at)
    this.dragging = more
    this.at = to
    this.future.length = 0
  }

  undo(): void {
    const before = this.past.pop()
    if (before === undefined) return
    this.dragging = false
    this.future.push(this.at)
    this.at = before
  }

  redo(): void {
    const after = this.future.pop()
    if (after === undefined) return
    this.past.push(this.at)
    this.at = after
  }
}
