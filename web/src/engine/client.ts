// The engine as the page sees it. Two workers hold it: one answers every frame of
// a drag, the other works out the rest meanwhile, so that a drag never waits. A
// third, larger engine is fetched when somebody asks for the files of the plan.
import type { FromWorker, Page, PlanFile, Request, ToWorker } from './types'

/** Where the parts of the page come from: a folder, or the page itself. */
export interface Source {
  worker(): Worker
  engine(): Promise<ArrayBuffer | string>
  whole(): Promise<ArrayBuffer | string>
}

export interface Answer { page: Page, scene: ArrayBuffer, ms: number }

class Desk {
  private readonly worker: Worker
  private readonly waiting = new Map<number, { ok(m: FromWorker & { kind: 'answer' }): void, bad(why: Error): void }>()
  private next = 1
  readonly module: Promise<WebAssembly.Module>

  constructor(source: Source) {
    this.worker = source.worker()
    let got: (m: WebAssembly.Module) => void
    let fail: (why: Error) => void
    this.module = new Promise((ok, bad) => { got = ok; fail = bad })
    this.worker.onmessage = (e: MessageEvent<FromWorker>) => {
      const m = e.data
      if (m.kind === 'module') return got(m.module)
      const asked = this.waiting.get(m.id)
      this.waiting.delete(m.id)
      if (m.kind === 'answer') asked?.ok(m)
      else if (asked) asked.bad(new Error(m.why))
      else fail(new Error(m.why))
    }
    this.worker.onerror = e => fail(new Error(e.message || 'the engine could not be started'))
  }

  say(m: ToWorker): void { this.worker.postMessage(m) }

  ask(kind: 'ask' | 'files', request: Request): Promise<FromWorker & { kind: 'answer' }> {
    const id = this.next++
    return new Promise((ok, bad) => {
      this.waiting.set(id, { ok, bad })
      this.say({ kind, id, request })
    })
  }
}

export class Engine {
  private files: Desk | undefined

  private constructor(private readonly from: Source, private readonly quick: Desk, private readonly slow: Desk, private file: string, private source: string) {}

  /** start fetches the engine and opens a design in it. */
  static async start(from: Source, file: string, source: string): Promise<Engine> {
    const quick = new Desk(from)
    quick.say({ kind: 'compile', packed: await from.engine() })
    quick.say({ kind: 'open', file, source })
    const module = await quick.module
    const slow = new Desk(from)
    slow.say({ kind: 'start', module })
    slow.say({ kind: 'open', file, source })
    return new Engine(from, quick, slow, file, source)
  }

  /** open puts another text in the place of the design. */
  open(source: string): void {
    this.source = source
    for (const d of [this.quick, this.slow, this.files]) d?.say({ kind: 'open', file: this.file, source })
  }

  /** glance answers at once: values, solids and what is wrong with them. */
  glance(r: Request): Promise<Answer> { return ask(this.quick, r) }

  /** settle answers with the whole plan. */
  settle(r: Request): Promise<Answer> { return ask(this.slow, r) }

  /** write makes the files of the plan. */
  async write(r: Request): Promise<PlanFile[]> {
    if (!this.files) {
      const d = new Desk(this.from)
      d.say({ kind: 'compile', packed: await this.from.whole() })
      d.say({ kind: 'open', file: this.file, source: this.source })
      this.files = d
    }
    const m = await this.files.ask('files', r)
    const said = JSON.parse(m.text) as { files?: { path: string, size: number }[], error?: string }
    if (!said.files) throw new Error(said.error ?? 'no files came')
    let at = 0
    return said.files.map(f => {
      const bytes = new Uint8Array(m.scene, at, f.size)
      at += f.size
      return { path: f.path, bytes }
    })
  }
}

async function ask(d: Desk, r: Request): Promise<Answer> {
  const m = await d.ask('ask', r)
  const page = JSON.parse(m.text) as Page | { error: string }
  if ('error' in page) throw new Error(page.error)
  return { page, scene: m.scene, ms: m.ms }
}
