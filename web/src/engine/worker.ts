// A worker that holds one engine: the Go program as WebAssembly, with one design
// open. The Go runtime's own loader, wasm_exec.js, is put before this file when it
// is bundled.
import { unlzma } from './lzma'
import type { FromWorker, ToWorker } from './types'

declare class Go {
  importObject: WebAssembly.Imports
  run(instance: WebAssembly.Instance): Promise<void>
}

interface Exports {
  mem: WebAssembly.Memory
  take(n: number): number
  open(): void
  ask(): void
  write_files?(): void
  text_at(): number
  text_size(): number
  scene_at(): number
  scene_size(): number
}

let engine: Exports | undefined
const toUTF8 = new TextEncoder()
const fromUTF8 = new TextDecoder()

const say = (m: FromWorker, move: Transferable[] = []): void => { self.postMessage(m, { transfer: move }) }

/** base85 reads five letters as four bytes, as package web writes them. */
function base85(text: string): Uint8Array {
  const letters = '!#$%()*+,-./0123456789:;=?@ABCDEFGHIJKLMNOPQRSTUVWXYZ[]^_abcdefghijklmnopqrstuvwxyz{|'
  const value = new Uint8Array(128)
  for (let i = 0; i < letters.length; i++) value[letters.charCodeAt(i)] = i
  const out = new DataView(new ArrayBuffer(text.length / 5 * 4))
  for (let i = 0, at = 0; i < text.length; i += 5, at += 4) {
    let v = 0
    for (let k = 0; k < 5; k++) v = v * 85 + value[text.charCodeAt(i + k)]!
    out.setUint32(at, v)
  }
  return new Uint8Array(out.buffer)
}

/** compile reads the engine: gzipped bytes as a server has them, or LZMA in letters as a page of one file does. */
async function compile(packed: ArrayBuffer | string): Promise<WebAssembly.Module> {
  if (typeof packed === 'string') {
    return WebAssembly.compile(unlzma(base85(packed)))
  }
  const plain = new Blob([packed]).stream().pipeThrough(new DecompressionStream('gzip'))
  return WebAssembly.compile(await new Response(plain).arrayBuffer())
}

async function start(module: WebAssembly.Module): Promise<void> {
  const go = new Go()
  const instance = await WebAssembly.instantiate(module, go.importObject)
  void go.run(instance)
  engine = instance.exports as unknown as Exports
}

function write(x: Exports, text: string): void {
  const bytes = toUTF8.encode(text)
  const at = x.take(bytes.length)
  new Uint8Array(x.mem.buffer, at, bytes.length).set(bytes)
}

async function hear(m: ToWorker): Promise<void> {
  switch (m.kind) {
    case 'compile': {
      const module = await compile(m.packed)
      await start(module)
      say({ kind: 'module', module })
      return
    }
    case 'start':
      return start(m.module)
    case 'open':
      if (!engine) throw new Error('the engine is not there yet')
      write(engine, m.file + '\0' + m.source)
      engine.open()
      return
    default: {
      if (!engine) throw new Error('the engine is not there yet')
      const begun = performance.now()
      write(engine, JSON.stringify(m.request))
      if (m.kind === 'ask') engine.ask()
      else engine.write_files?.()
      const x = engine
      const text = fromUTF8.decode(new Uint8Array(x.mem.buffer, x.text_at(), x.text_size()))
      const scene = x.mem.buffer.slice(x.scene_at(), x.scene_at() + x.scene_size())
      say({ kind: 'answer', id: m.id, text, scene, ms: performance.now() - begun }, [scene])
    }
  }
}

// One message after another: a design is not asked about before it is open.
let last: Promise<void> = Promise.resolve()
self.onmessage = (e: MessageEvent<ToWorker>) => {
  const m = e.data
  last = last.then(() => hear(m)).catch((why: unknown) => say({ kind: 'failed', id: 'id' in m ? m.id : 0, why: String(why) }))
}
