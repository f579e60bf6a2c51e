// What the page was published with: the design, and where its engine lies.
import type { Source } from './engine/client'

interface Said { piece: string, file: string, source: string, region: string, regions: string[], engine?: string, whole?: string, worker?: string }

export interface Opened extends Said {
  offline: boolean
  from: Source
}

const text = (id: string): string => document.getElementById(id)?.textContent ?? ''

/** opened reads what the page carries: in a folder its files' names, in one file everything. */
export function opened(): Opened {
  const said = JSON.parse(text('design')) as Said
  const fetched = async (path: string): Promise<ArrayBuffer> => {
    const r = await fetch(path)
    if (!r.ok) throw new Error(`${path}: ${r.status}`)
    return r.arrayBuffer()
  }
  const { engine, whole, worker } = said
  const from: Source = engine && whole && worker
    ? { worker: () => new Worker(worker), engine: () => fetched(engine), whole: () => fetched(whole) }
    : inside()
  return { ...said, offline: engine !== undefined, from }
}

/** inside is a page of one file: its one engine does everything. */
function inside(): Source {
  const script = URL.createObjectURL(new Blob([text('worker')], { type: 'text/javascript' }))
  const packed = (): Promise<string> => Promise.resolve(text('engine').trim())
  return { worker: () => new Worker(script), engine: packed, whole: packed }
}
