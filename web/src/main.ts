// The page a reader opens: wiring only.
import { Engine, type Answer } from './engine/client'
import { Want } from './engine/types'
import { asDesigned, fromAddress, History, request, toAddress, withSize, written, type Choices } from './model/choices'
import { opened } from './opened'
import { YourBoards } from './view/boards'
import { Chapters } from './view/chapters'
import { button, el } from './view/dom'
import { Front } from './view/front'
import { Picture } from './view/picture'
import { Steps } from './view/steps'
import { Take } from './view/take'
import { Ticks } from './view/ticks'

const data = opened()
const plan = document.getElementById('plan')!
const root = document.documentElement

const past = new History<Choices>(fromAddress(location.hash))
const picture = Picture.open()
const ticks = new Ticks(data.piece)
const yours = new YourBoards(past.now, c => go(c))
const steps = picture ? new Steps(picture) : undefined

const front = new Front(document.getElementById('front')!, picture, {
  slide: (s, to, more) => go(withSize(past.now, s.name, Math.abs(to - s.default) < 1e-6 ? undefined : written(s, to)), more),
  type: (s, text) => go(withSize(past.now, s.name, text === '' ? undefined : text)),
  take: (name, word) => go(withSize(past.now, name, word)),
  undo: () => { past.undo(); moved() },
  redo: () => { past.redo(); moved() },
  reset: () => go(asDesigned),
})

const take = new Take({
  name: data.file.replace(/\.[^.]*$/, ''),
  files: async () => (await engine).write({ want: Want.Pictures, ...request(past.now) }),
  edition: region => go({ ...past.now, region: region === data.region ? '' : region, set: {}, boards: {}, have: [], kerf: '', squared: '' }),
  paper: paper => go({ ...past.now, paper }),
}, data.regions)

const large = button('large type for the shop', () => {
  large.setAttribute('aria-pressed', String(root.classList.toggle('large')))
  front.wake()
  steps?.wake()
}, { class: 'link', 'aria-pressed': 'false' })
const body = document.querySelector<HTMLElement>('#front .body')!
body.append(el('div', { class: 'along' }, take.element, large))

const chapters = new Chapters(plan, chapter => {
  ticks.dress(chapter)
  if (chapter.id === 'boards') yours.dress(chapter)
  if (chapter.id === 'steps') steps?.dress(chapter)
})
chapters.begin()

const engine = Engine.start(data.from, data.file, data.source)
engine.then(() => live(), (why: unknown) => {
  body.prepend(el('p', { class: 'trouble', role: 'alert' }, `The sizes cannot be changed here: ${said(why)}. The plan below is of the sizes as designed.`))
})

function said(why: unknown): string { return why instanceof Error ? why.message : String(why) }

function go(c: Choices, more = false): void {
  past.go(c, more)
  moved()
}

/** moved follows a change of the choices. */
function moved(): void {
  const address = toAddress(past.now)
  history.replaceState(null, '', address === '' ? location.pathname + location.search : address)
  live()
}

addEventListener('hashchange', () => {
  if (location.hash.startsWith('#/') && location.hash !== toAddress(past.now)) go(fromAddress(location.hash))
})

// Of many frames only the last one asked for counts.
let busy = false
let again = false
let rest = 0
let drawn = false
let settled: Choices | undefined

function live(): void {
  root.classList.add('unsettled')
  clearTimeout(rest)
  again = true
  if (!busy) void frames()
}

async function frames(): Promise<void> {
  busy = true
  while (again) {
    again = false
    performance.mark('asked')
    try {
      show(await (await engine).glance({ want: Want.Live, ...request(past.now) }), false)
    } catch (why) {
      yours.show(past.now, said(why))
    }
  }
  busy = false
  rest = window.setTimeout(() => { void settle() }, 120)
}

async function settle(): Promise<void> {
  const asked = past.now
  try {
    const a = await (await engine).settle({ want: picture ? Want.Settled : Want.Pictures, column: column(), ...request(asked) })
    if (asked !== past.now) return // a newer one is on its way
    show(a, true)
    settled = asked
    yours.show(asked, '')
    root.classList.remove('unsettled')
    root.dataset['settled'] = a.page.revision ?? ''
  } catch (why) {
    yours.show(asked, said(why))
  }
}

/** column is how wide a drawing may be, in mm of paper, so that its letters stay legible here. */
function column(): number {
  return Math.round(Math.max(95, Math.min(170, plan.querySelector('.column')!.clientWidth * 25.4 / 96)))
}

function show(a: Answer, whole: boolean): void {
  const g = a.page.glance
  if (!g) return
  if (!whole || !drawn) {
    picture?.load(a.scene)
    performance.measure('frame', 'asked')
    drawn = true
  }
  take.show(a.page.region, past.now.paper)
  front.show(g, whole, { undo: past.canUndo, redo: past.canRedo, reset: toAddress(past.now) !== '' })
  if (whole) {
    if (a.page.model) front.know(a.page.model)
    steps?.know(g, a.page.model)
    if (a.page.chapters) chapters.show(a.page.chapters, settled !== undefined)
  } else steps?.know(g, undefined)
  if (!root.dataset['picture']) requestAnimationFrame(() => { front.draw(); root.dataset['picture'] = String(Math.round(performance.now())) })
}

// A row, a note or a sheet shows its boards in the picture; links within the plan
// leave the address alone, which keeps the choices.
plan.addEventListener('pointerover', e => {
  const of = (e.target as Element).closest<HTMLElement>('[data-boards]')
  if (!(e.target as Element).closest('.picture')) front.mark(of?.dataset['boards']?.split(' ') ?? [])
})
document.addEventListener('click', e => {
  const a = (e.target as Element).closest<HTMLAnchorElement>('a[href^="#"]')
  if (!a) return
  e.preventDefault()
  document.getElementById(a.getAttribute('href')!.slice(1))?.scrollIntoView({ block: 'start' })
})
document.addEventListener('keydown', e => {
  const writing = e.target instanceof HTMLTextAreaElement || e.target instanceof HTMLInputElement && e.target.type === 'text'
  if (!(e.ctrlKey || e.metaKey) || writing) return
  if (e.key === 'z' && !e.shiftKey) past.undo()
  else if (e.key === 'y' || e.key.toLowerCase() === 'z') past.redo()
  else return
  e.preventDefault()
  moved()
})

if (data.offline && 'serviceWorker' in navigator && location.protocol.startsWith('http')) void navigator.serviceWorker.register('offline.js')
