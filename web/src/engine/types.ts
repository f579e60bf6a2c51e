// What the engine says: the Go structs of package page and of plan.Page, field by
// field. A test of package web compares the two.

export interface Page {
  glance: Glance | null
  revision?: string
  ready: boolean
  region: string
  chapters?: Chapter[]
  model?: Model
  messages?: string
}

export interface Chapter {
  id: string
  title: string
  aside: string
  html: string
}

export interface Glance {
  title: string
  units: string
  lead: string
  facts: string
  needs: string
  mend: string
  care: string
  errors: number
  sizes: Size[]
  choices: Choice[]
  boards: Board[]
  low: number[]
  high: number[]
}

export interface Size {
  name: string
  says: string
  unit: string
  is: number
  least: number
  most: number
  step: number
  default: number
  shown: string
  text: string
  from: string
  to: string
  at: [number, number]
}

export interface Choice {
  name: string
  says: string
  is: string
  default: string
  of: string[]
  at: [number, number]
}

export interface Board {
  id: string
  called: string
  name: string
  at: [number, number]
  top: boolean
}

export interface Model {
  letters: string[]
  axes: Axis[]
  steps: ModelStep[]
}

export interface Axis {
  what: string
  at: number[]
  way: number[]
  long: number
  head: number
}

export interface ModelStep {
  number: number
  name: string
  turn: number[][]
  present: number[]
  new: number[]
  from: number[][]
  axes: number[]
}

/** How far the engine goes: see plan.Want. */
export const enum Want { Live, Settled, Pictures }

/** What is asked of the engine, in words as a person writes them. */
export interface Request {
  want: Want
  set: [string, string][]
  measured?: string[]
  have?: string[]
  kerf?: string
  squared?: string
  tape?: string
  region?: string
  paper?: string
  prices?: string
  column?: number
  editing?: boolean
}

export interface PlanFile { path: string, bytes: Uint8Array<ArrayBuffer> }

/** What passes between the page and a worker. */
export type ToWorker =
  | { kind: 'start', module: WebAssembly.Module }
  | { kind: 'compile', packed: ArrayBuffer | string }
  | { kind: 'open', file: string, source: string }
  | { kind: 'ask', id: number, request: Request }
  | { kind: 'files', id: number, request: Request }

export type FromWorker =
  | { kind: 'module', module: WebAssembly.Module }
  | { kind: 'answer', id: number, text: string, scene: ArrayBuffer, ms: number }
  | { kind: 'failed', id: number, why: string }
