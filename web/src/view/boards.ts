// Your boards: what they measure, what the blade takes, what lies in the garage,
// what the yard asks. Words go to the engine as they are written.
import type { Choices } from '../model/choices'
import { button, el } from './dom'

export class YourBoards {
  private choices: Choices
  private trouble = ''
  private box: HTMLElement | undefined

  constructor(choices: Choices, private readonly change: (c: Choices) => void) { this.choices = choices }

  show(c: Choices, trouble: string): void {
    this.choices = c
    this.trouble = trouble
    this.fill()
  }

  /** dress makes the chapter's table a form. */
  dress(chapter: HTMLElement): void {
    const yours = chapter.querySelector<HTMLElement>('[data-yours]')
    if (!yours) return
    const head = yours.querySelector('thead tr')
    head?.append(el('th', { scope: 'col' }, 'yours: thick'), el('th', { scope: 'col' }, 'yours: wide'))
    for (const row of yours.querySelectorAll<HTMLElement>('tr[data-stock]')) {
      const stock = row.dataset['stock']!
      const sold = (row.querySelector('th')?.textContent ?? stock).trim()
      const cells = [...row.querySelectorAll('td')]
      const [thick, wide] = ['thick', 'wide'].map((what, k) => {
        const usual = cells[k + 1]?.textContent ?? ''
        const i = el('input', { type: 'text', class: 'measure', 'data-of': stock, 'data-what': what, placeholder: usual, 'aria-label': `${sold}, yours: ${what}`, autocomplete: 'off', inputmode: 'text' })
        row.append(el('td', { 'data-head': `yours: ${what}` }, i))
        return i
      }) as [HTMLInputElement, HTMLInputElement]
      const say = (): void => {
        const t = plain(thick.value || thick.placeholder), w = plain(wide.value || wide.placeholder)
        const boards = { ...this.choices.boards }
        if (thick.value.trim() === '' && wide.value.trim() === '') delete boards[stock]
        else boards[stock] = `${t} x ${w}`
        this.change({ ...this.choices, boards })
      }
      thick.addEventListener('change', say)
      wide.addEventListener('change', say)
    }
    this.box = el('div', { class: 'yours' })
    yours.after(this.box)
    this.fill()
  }

  private fill(): void {
    for (const i of document.querySelectorAll<HTMLInputElement>('input.measure')) {
      if (i === document.activeElement) continue
      const [t, w] = (this.choices.boards[i.dataset['of']!] ?? '').split(' x ')
      const v = (i.dataset['what'] === 'thick' ? t : w) ?? ''
      i.value = v !== '' && v !== plain(i.placeholder) ? v : ''
    }
    if (!this.box || this.box.contains(document.activeElement)) return
    const c = this.choices
    const kerf = field('the blade cuts away', c.kerf, '1/8″ or 3 mm', v => this.change({ ...this.choices, kerf: v }))
    const squared = field('squaring an end takes', c.squared, '1/2″ or 12 mm', v => this.change({ ...this.choices, squared: v }))
    const have = el('ul', { class: 'have' }, ...c.have.map((h, i) => el('li', {}, h, ' ', button('take off the list', () => {
      this.change({ ...this.choices, have: this.choices.have.filter((_, k) => k !== i) })
    }, { class: 'link', 'aria-label': `take ${h} off the list` }))))
    const more = el('input', { type: 'text', class: 'long', 'aria-label': 'boards you have', placeholder: '2 of 2x6 southern pine, ground contact, 50"', autocomplete: 'off' })
    const add = (): void => {
      const v = more.value.trim()
      if (v === '') return
      more.blur()
      this.change({ ...this.choices, have: [...this.choices.have, v] })
    }
    more.addEventListener('keydown', e => { if (e.key === 'Enter') add() })
    const prices = el('textarea', { rows: 4, 'aria-label': 'price list', placeholder: 'paste the yard’s price list here (CSV)', spellcheck: 'false' })
    prices.value = c.prices
    prices.addEventListener('change', () => this.change({ ...this.choices, prices: prices.value }))
    this.box.replaceChildren(
      el('p', { class: 'trouble', role: 'alert' }, this.trouble),
      el('p', { class: 'fields' }, kerf, squared),
      el('details', c.have.length > 0 ? { open: true } : {}, el('summary', {}, 'What you have already'),
        el('p', {}, 'Boards on hand are used before any are bought: how many, size and wood, treatment, and how long each is.'), have, el('p', { class: 'fields' }, more, button('put on the list', add))),
      el('details', c.prices !== '' ? { open: true } : {}, el('summary', {}, 'What your yard sells, and asks'), prices))
  }
}

/** plain writes marks of feet and inches as a keyboard has them. */
function plain(s: string): string { return s.replaceAll('″', '"').replaceAll('′', "'").trim() }

function field(says: string, value: string, usual: string, change: (v: string) => void): HTMLElement {
  const i = el('input', { type: 'text', class: 'measure', placeholder: usual, autocomplete: 'off' })
  i.value = value
  i.addEventListener('change', () => change(plain(i.value)))
  return el('label', { class: 'field' }, `${says} `, i)
}
