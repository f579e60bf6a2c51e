// The chapters as they stand on the page: what the engine says anew takes the
// place of what it said before, and what changed is marked.
import type { Chapter } from '../engine/types'
import { el } from './dom'

/** Chapters whose words are put in place bit by bit, not as a whole. */
const kept = new Set(['front'])

export class Chapters {
  private readonly was = new Map<string, string>()

  constructor(private readonly plan: HTMLElement, private readonly dressed: (chapter: HTMLElement) => void) {}

  /** begin takes the chapters that stand on the page already. */
  begin(): void {
    for (const s of this.plan.querySelectorAll<HTMLElement>('section.chapter')) this.dressed(s)
  }

  /** show puts the chapters on the page; mark says whether what differs is to be marked. */
  show(chapters: readonly Chapter[], mark: boolean): void {
    let before: Element | null = null
    const here = new Set(chapters.map(c => c.id))
    for (const s of [...this.plan.querySelectorAll<HTMLElement>('section.chapter')]) {
      if (!here.has(s.id) && !s.dataset['own']) {
        s.remove()
        this.was.delete(s.id)
      }
    }
    chapters.forEach((c, i) => {
      let s = document.getElementById(c.id)
      if (!s) {
        s = section(c)
        if (before) before.after(s)
        else this.plan.prepend(s)
      }
      s.querySelector('.number')!.textContent = String(i + 1)
      const aside = s.querySelector('.aside')!
      if (aside.textContent !== c.aside) aside.textContent = c.aside
      if (!kept.has(c.id) && this.was.get(c.id) !== c.html) {
        const old = mark && this.was.has(c.id) ? lines(s) : undefined
        this.was.set(c.id, c.html)
        s.querySelector('.body')!.innerHTML = c.html
        this.dressed(s)
        if (old) this.mark(s, old)
      }
      before = s
    })
    let n = chapters.length
    for (const s of this.plan.querySelectorAll<HTMLElement>('section.chapter[data-own]')) s.querySelector('.number')!.textContent = String(++n)
  }

  /** mark shows which rows say something else than before. */
  private mark(s: HTMLElement, old: Map<string, string>): void {
    for (const [key, says] of lines(s)) {
      if (old.get(key) === says) continue
      const row = [...s.querySelectorAll<HTMLElement>('[data-tick]')].find(r => r.dataset['tick'] === key)
      if (!row?.matches('tr')) continue
      row.classList.add('fresh')
      row.querySelector('th, td')?.append(el('span', { class: 'unseen' }, ' (changed)'))
    }
  }
}

function lines(s: HTMLElement): Map<string, string> {
  const out = new Map<string, string>()
  for (const r of s.querySelectorAll<HTMLElement>('[data-tick]')) out.set(r.dataset['tick']!, (r.textContent ?? '').replace(' (changed)', ''))
  return out
}

function section(c: Chapter): HTMLElement {
  return el('section', { class: 'chapter', id: c.id, 'aria-labelledby': `${c.id}-title` },
    el('div', { class: 'side' }, el('span', { class: 'number', 'aria-hidden': 'true' }), el('p', { class: 'aside' }, c.aside)),
    el('div', { class: 'column' }, el('h2', { id: `${c.id}-title` }, c.title), el('div', { class: 'body' })))
}
