// What has been bought, cut and done is ticked off, and kept on this device only.
import { el } from './dom'

export class Ticks {
  private done: Record<string, true> = {}
  private readonly key: string

  constructor(piece: string) {
    this.key = `scantling ticks ${piece}`
    try {
      this.done = JSON.parse(localStorage.getItem(this.key) ?? '{}') as Record<string, true>
    } catch { /* a page opened from disk may have no store: ticks last as long as the page */ }
  }

  /** dress puts a box to tick before every line of a chapter that can be done. */
  dress(chapter: HTMLElement): void {
    for (const row of chapter.querySelectorAll<HTMLElement>('[data-tick]')) {
      const name = row.dataset['tick']!
      const box = el('input', { type: 'checkbox', class: 'tick' })
      const says = (row.querySelector('h3, th')?.textContent ?? name).trim().replace(/\s+/g, ' ')
      box.setAttribute('aria-label', `done: ${says}`)
      box.checked = this.done[name] === true
      row.classList.toggle('done', box.checked)
      box.addEventListener('change', () => {
        if (box.checked) this.done[name] = true
        else delete this.done[name]
        row.classList.toggle('done', box.checked)
        try {
          localStorage.setItem(this.key, JSON.stringify(this.done))
        } catch { /* as above */ }
      })
      const place = row.querySelector('h3') ?? row.querySelector('th, td')
      place?.prepend(box)
    }
  }
}
