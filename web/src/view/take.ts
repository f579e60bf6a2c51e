// What a reader takes along: the printed plan, the lists, a link.
import type { PlanFile } from '../engine/types'
import { button, el } from './dom'

export interface TakeActs {
  files(): Promise<PlanFile[]>
  name: string
  edition(region: string): void
  paper(paper: string): void
}

export class Take {
  readonly element: HTMLElement
  private readonly said = el('p', { class: 'said quiet', role: 'status' })
  private readonly region: HTMLSelectElement
  private readonly sheet: HTMLSelectElement

  constructor(private readonly acts: TakeActs, regions: readonly string[]) {
    this.region = pick('edition', regions.map(r => [r, r]), v => acts.edition(v))
    this.sheet = pick('paper', [['', 'usual here'], ['letter', 'letter'], ['a4', 'A4']], v => acts.paper(v))
    this.element = el('div', { class: 'take' },
      button('Print this plan (PDF)', () => { void this.give(f => f.path === 'plan.pdf') }, { class: 'main', 'data-take': 'pdf' }),
      button('Lists for a spreadsheet', () => { void this.give(f => f.path.endsWith('.csv')) }, { 'data-take': 'lists' }),
      button('Copy the link', () => { void this.link() }),
      el('label', {}, 'edition ', this.region), el('label', {}, 'paper ', this.sheet), this.said)
  }

  show(region: string, paper: string): void {
    this.region.value = region
    this.sheet.value = paper
  }

  private async give(want: (f: PlanFile) => boolean): Promise<void> {
    this.said.textContent = 'Making the plan of exactly this size…'
    try {
      const files = (await this.acts.files()).filter(want)
      for (const f of files) save(`${this.acts.name}-${f.path.split('/').pop()!}`, f)
      this.said.textContent = files.length > 0 ? `Saved: ${files.map(f => f.path.split('/').pop()).join(', ')}.` : 'There is nothing to save: see Mend this.'
    } catch (why) {
      this.said.textContent = `That could not be made: ${why instanceof Error ? why.message : String(why)}`
    }
  }

  private async link(): Promise<void> {
    try {
      await navigator.clipboard.writeText(location.href)
      this.said.textContent = 'The link is copied; it brings back exactly this.'
    } catch {
      this.said.textContent = `The link is the address of this page: ${location.href}`
    }
  }
}

function save(name: string, f: PlanFile): void {
  const type = f.path.endsWith('.pdf') ? 'application/pdf' : 'text/csv'
  const url = URL.createObjectURL(new Blob([f.bytes], { type }))
  const a = el('a', { href: url, download: name })
  document.body.append(a)
  a.click()
  a.remove()
  setTimeout(() => URL.revokeObjectURL(url), 60_000)
}

function pick(name: string, of: readonly (readonly [string, string])[], take: (v: string) => void): HTMLSelectElement {
  const s = el('select', { name }, ...of.map(([v, says]) => el('option', { value: v }, says)))
  s.addEventListener('change', () => take(s.value))
  return s
}
