// The steps played: boards come in along their way, then the fasteners are driven.
import type { Glance, Model, ModelStep } from '../engine/types'
import { Camera } from './camera'
import { button, el } from './dom'
import { handle, type Bar, type Look, type Picture } from './picture'

const fresh: Look = { colour: [0.953, 0.902, 0.784], ink: 0.05 }
const earlier: Look = { colour: [0.955, 0.955, 0.945], ink: 0.55 }

interface Player {
  canvas: HTMLCanvasElement
  camera: Camera
  slider: HTMLInputElement
  step: number
  t: number
  playing: boolean
  seen: boolean
}

export class Steps {
  private players: Player[] = []
  private glance: Glance | undefined
  private model: Model | undefined
  private readonly watch: IntersectionObserver
  private frame = 0
  private readonly still = matchMedia('(prefers-reduced-motion: reduce)')

  constructor(private readonly picture: Picture) {
    this.watch = new IntersectionObserver(all => {
      for (const x of all) {
        const p = this.players.find(p => p.canvas === x.target)
        if (!p) continue
        const first = x.isIntersecting && !p.seen
        p.seen = x.isIntersecting
        if (first && p.t === 0) {
          if (this.still.matches) p.t = 1
          else p.playing = true
        }
        if (x.isIntersecting) this.wake()
      }
    }, { threshold: 0.25 })
  }

  /** know takes the figures of a plan. The solids are in the picture already. */
  know(glance: Glance, model: Model | undefined): void {
    this.glance = glance
    if (model) this.model = model
    this.wake()
  }

  /** dress puts a picture that plays in the place of each step's drawing. */
  dress(chapter: HTMLElement): void {
    if (!this.model) return // the drawings stand until there is something to play
    const before = new Map(this.players.map(p => [p.step, p]))
    this.players = []
    this.watch.disconnect()
    for (const a of chapter.querySelectorAll<HTMLElement>('[data-step]')) {
      const place = a.querySelector<HTMLElement>('[data-scene]')
      const step = Number(a.dataset['step'])
      if (!place || (this.model.steps[step]?.new.length ?? 0) === 0) continue
      const name = a.querySelector('h3')?.textContent?.trim().replace(/\s+/g, ' ') ?? ''
      const canvas = el('canvas', { class: 'play', tabindex: 0, role: 'img', 'aria-label': `Step ${name}: a picture to turn with the arrow keys` })
      const slider = el('input', { type: 'range', min: 0, max: 1, step: 0.01, 'aria-label': `Step ${name}: move the boards in` })
      const p: Player = { canvas, slider, step, camera: before.get(step)?.camera ?? new Camera(), t: before.get(step)?.t ?? 0, playing: false, seen: false }
      slider.value = String(p.t)
      slider.addEventListener('input', () => { p.playing = false; p.t = Number(slider.value); this.wake() })
      const again = button('show me', () => { p.t = 0; p.playing = true; this.wake() }, { class: 'link', 'aria-label': `show me step ${name}` })
      place.replaceChildren(canvas, el('div', { class: 'playing' }, again, slider))
      handle(canvas, p.camera, () => this.wake())
      this.players.push(p)
      this.watch.observe(canvas)
    }
  }

  /** wake draws what is to be seen, as soon as the screen takes it. */
  wake(): void {
    if (this.frame === 0) this.frame = requestAnimationFrame(now => this.draw(now))
  }

  private last = 0

  private draw(now: number): void {
    this.frame = 0
    const passed = Math.min(50, now - this.last) / 1000
    this.last = now
    const { glance, model } = this
    if (!glance || !model || glance.low.length === 0 || this.picture.count !== model.letters.length) return
    let more = false
    for (const p of this.players) {
      if (!p.seen) continue
      const s = model.steps[p.step]
      if (!s) continue
      if (p.playing) {
        p.t = Math.min(1, p.t + passed / Math.min(6, 1.6 + 0.25 * s.new.length))
        p.slider.value = String(p.t)
        p.playing = p.t < 1
        more ||= p.playing
      }
      paint(this.picture, p.canvas, p.camera, glance, model, s, p.t)
    }
    if (more) this.wake()
  }
}

/** paint draws a step when so much of it is done: boards come in one after another in the first three quarters. */
function paint(picture: Picture, canvas: HTMLCanvasElement, camera: Camera, glance: Glance, model: Model, s: ModelStep, t: number): void {
  const size = Math.max(...glance.high.map((h, i) => h - glance.low[i]!))
  const far = Math.min(500, size * 0.35)
  const share = 0.72 / Math.max(1, s.new.length * 0.6 + 0.4)
  const looks = new Map<number, Look>()
  for (const i of s.present) looks.set(i, earlier)
  s.new.forEach((i, k) => {
    const begun = k * share * 0.6
    const u = Math.max(0, Math.min(1, (t - begun) / share))
    const left = (1 - u) * (1 - u) * far
    const way = s.from[k] ?? [0, 0, 0]
    const up = way[0] === 0 && way[1] === 0 && way[2] === 0 ? s.turn.map(r => r[2]!) : way
    looks.set(i, { ...fresh, at: [up[0]! * left, up[1]! * left, up[2]! * left] })
  })
  const driven = Math.max(0, (t - 0.75) / 0.25)
  const bars: Bar[] = driven > 0 ? s.axes.map(i => model.axes[i]!).map(a => ({ at: a.at, way: a.way, long: Math.max(a.long, 20), thick: a.head, back: (1 - driven) * 140 })) : []
  picture.draw(canvas, camera.matrix(glance.low, glance.high, Math.max(0.1, canvas.clientWidth / Math.max(1, canvas.clientHeight)), s.turn), i => looks.get(i), bars, 1, s.turn)
}
