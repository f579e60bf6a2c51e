// The picture: solids in pale tones with black edges, drawn by WebGL 2 on one
// canvas that nobody sees and copied to whichever picture of the page asks.

/** How one board is drawn. */
export interface Look {
  colour: readonly [number, number, number]
  ink: number // 0 black … 1 white
  at?: readonly [number, number, number] // mm moved away
}

export interface Bar { at: readonly number[], way: readonly number[], long: number, thick: number, back: number }

const wood = `#version 300 es
layout(location=0) in vec3 place; layout(location=1) in vec3 normal;
uniform mat4 view; uniform vec3 away; uniform vec3 light; out float shade;
void main() { gl_Position = view * vec4(place + away, 1.0); shade = 0.86 + 0.14 * dot(normal, light); }`
const woodInk = `#version 300 es
precision mediump float; uniform vec3 colour; in float shade; out vec4 paint;
void main() { paint = vec4(colour * shade, 1.0); }`
// Each edge is a strip of two triangles as wide as a pen.
const edge = `#version 300 es
layout(location=2) in vec3 from; layout(location=3) in vec3 to;
uniform mat4 view; uniform vec3 away; uniform vec2 size; uniform float pen;
void main() {
  vec4 a = view * vec4(from + away, 1.0), b = view * vec4(to + away, 1.0);
  vec2 d = (b.xy - a.xy) * size; d = length(d) < 0.001 ? vec2(1.0, 0.0) : normalize(d);
  float end = float(gl_VertexID >> 1), side = float(gl_VertexID & 1) * 2.0 - 1.0;
  vec4 p = mix(a, b, end);
  p.xy += (vec2(-d.y, d.x) * side + d * (end * 2.0 - 1.0)) * pen / size;
  p.z -= 0.0004; gl_Position = p;
}`
const edgeInk = `#version 300 es
precision mediump float; uniform float ink; out vec4 paint;
void main() { paint = vec4(vec3(ink), 1.0); }`

export class Picture {
  private readonly canvas = document.createElement('canvas')
  private readonly gl: WebGL2RenderingContext
  private readonly wood: WebGLProgram
  private readonly edge: WebGLProgram
  private readonly buffer: WebGLBuffer
  private boards: { tri: number, corners: number, line: number, edges: number }[] = []
  private scene = new ArrayBuffer(4)

  private constructor(gl: WebGL2RenderingContext, canvas: HTMLCanvasElement) {
    this.canvas = canvas
    this.gl = gl
    this.wood = program(gl, wood, woodInk)
    this.edge = program(gl, edge, edgeInk)
    this.buffer = gl.createBuffer()
  }

  /** open returns a picture, or nothing where there is no WebGL 2. */
  static open(): Picture | undefined {
    const canvas = document.createElement('canvas')
    const gl = canvas.getContext('webgl2', { antialias: true, alpha: true, premultipliedAlpha: true })
    if (!gl) return undefined
    try {
      return new Picture(gl, canvas)
    } catch {
      return undefined
    }
  }

  get lost(): boolean { return this.gl.isContextLost() }

  /** load takes the solids as the engine's Scene gives them. */
  load(scene: ArrayBuffer): void {
    this.scene = scene
    const head = new DataView(scene)
    const n = head.getUint32(0, true)
    let at = 4 + n * 8
    this.boards = []
    for (let i = 0; i < n; i++) {
      const corners = head.getUint32(4 + i * 8, true), ends = head.getUint32(8 + i * 8, true)
      this.boards.push({ tri: at, corners, line: at + corners * 24, edges: ends / 2 })
      at += corners * 24 + ends * 12
    }
    this.gl.bindBuffer(this.gl.ARRAY_BUFFER, this.buffer)
    this.gl.bufferData(this.gl.ARRAY_BUFFER, scene, this.gl.DYNAMIC_DRAW)
  }

  get count(): number { return this.boards.length }

  /** pick returns the board that is seen at a place of the picture (clip space), or nothing. */
  pick(view: Float32Array, x: number, y: number): number | undefined {
    const on = (v: ArrayLike<number>, at: number): [number, number, number] => {
      const p = [0, 1, 2].map(r => view[r]! * v[at]! + view[4 + r]! * v[at + 1]! + view[8 + r]! * v[at + 2]! + view[12 + r]!)
      return p as [number, number, number]
    }
    let best: number | undefined
    let nearest = Infinity
    this.boards.forEach((b, i) => {
      const v = new Float32Array(this.scene, b.tri, b.corners * 6)
      for (let t = 0; t + 12 < v.length; t += 18) {
        const [p, q, r] = [on(v, t), on(v, t + 6), on(v, t + 12)]
        const area = (q[0] - p[0]) * (r[1] - p[1]) - (r[0] - p[0]) * (q[1] - p[1])
        if (area <= 0) continue // it looks away
        const a = ((q[0] - x) * (r[1] - y) - (r[0] - x) * (q[1] - y)) / area
        const c = ((r[0] - x) * (p[1] - y) - (p[0] - x) * (r[1] - y)) / area
        const d = 1 - a - c
        if (a < 0 || c < 0 || d < 0) continue
        const z = a * p[2] + c * q[2] + d * r[2]
        if (z < nearest) { nearest = z; best = i }
      }
    })
    return best
  }

  /** draw paints the boards for which look says how, and the fasteners, and copies the picture to where it is seen. */
  draw(onto: HTMLCanvasElement, view: Float32Array, look: (board: number) => Look | undefined, bars: readonly Bar[] = [], pen = 1, turn?: readonly (readonly number[])[]): void {
    const { gl, canvas } = this
    const dots = Math.min(window.devicePixelRatio || 1, 2)
    const w = Math.max(1, Math.round(onto.clientWidth * dots)), h = Math.max(1, Math.round(onto.clientHeight * dots))
    if (onto.width !== w || onto.height !== h) { onto.width = w; onto.height = h }
    if (canvas.width !== w || canvas.height !== h) { canvas.width = w; canvas.height = h }
    gl.viewport(0, 0, w, h)
    gl.clearColor(0, 0, 0, 0)
    gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT)
    gl.enable(gl.DEPTH_TEST)
    gl.bindBuffer(gl.ARRAY_BUFFER, this.buffer)
    const still = [0, 0, 0] as const

    gl.enable(gl.POLYGON_OFFSET_FILL)
    gl.polygonOffset(1, 1) // edges lie before the faces they bound
    gl.useProgram(this.wood)
    const of = (p: WebGLProgram, name: string): WebGLUniformLocation | null => gl.getUniformLocation(p, name)
    gl.uniformMatrix4fv(of(this.wood, 'view'), false, view)
    // The light stays where it is when the work is turned.
    const sun = [0.25, -0.45, 0.86]
    gl.uniform3fv(of(this.wood, 'light'), turn ? turn.map(axis => axis[0]! * sun[0]! + axis[1]! * sun[1]! + axis[2]! * sun[2]!) : sun)
    const away = of(this.wood, 'away'), colour = of(this.wood, 'colour')
    for (const k of [0, 1]) gl.enableVertexAttribArray(k)
    const looks = this.boards.map((_, i) => look(i))
    this.boards.forEach((b, i) => {
      const l = looks[i]
      if (!l || b.corners === 0) return
      gl.uniform3fv(away, l.at ?? still)
      gl.uniform3fv(colour, l.colour)
      gl.vertexAttribPointer(0, 3, gl.FLOAT, false, 24, b.tri)
      gl.vertexAttribPointer(1, 3, gl.FLOAT, false, 24, b.tri + 12)
      gl.drawArrays(gl.TRIANGLES, 0, b.corners)
    })

    for (const k of [0, 1]) gl.disableVertexAttribArray(k)

    gl.useProgram(this.edge)
    gl.uniformMatrix4fv(of(this.edge, 'view'), false, view)
    gl.uniform2f(of(this.edge, 'size'), w / 2, h / 2)
    gl.uniform1f(of(this.edge, 'pen'), 0.55 * dots * pen)
    const move = of(this.edge, 'away'), ink = of(this.edge, 'ink')
    for (const k of [2, 3]) { gl.enableVertexAttribArray(k); gl.vertexAttribDivisor(k, 1) }
    this.boards.forEach((b, i) => {
      const l = looks[i]
      if (!l || b.edges === 0) return
      gl.uniform3fv(move, l.at ?? still)
      gl.uniform1f(ink, l.ink)
      gl.vertexAttribPointer(2, 3, gl.FLOAT, false, 24, b.line)
      gl.vertexAttribPointer(3, 3, gl.FLOAT, false, 24, b.line + 12)
      gl.drawArraysInstanced(gl.TRIANGLE_STRIP, 0, 4, b.edges)
    })
    if (bars.length > 0) this.fasteners(bars, dots, of)
    for (const k of [2, 3]) gl.disableVertexAttribArray(k)

    const paper = onto.getContext('2d')
    paper?.clearRect(0, 0, w, h)
    paper?.drawImage(canvas, 0, 0)
  }

  /** fasteners are drawn over everything, so that hidden ones show. */
  private fasteners(bars: readonly Bar[], dots: number, of: (p: WebGLProgram, name: string) => WebGLUniformLocation | null): void {
    const { gl } = this
    const ends = new Float32Array(bars.length * 6)
    bars.forEach((b, i) => {
      for (let k = 0; k < 3; k++) {
        ends[i * 6 + k] = b.at[k]! - b.way[k]! * b.back
        ends[i * 6 + 3 + k] = b.at[k]! + b.way[k]! * (b.long - b.back)
      }
    })
    const buffer = gl.createBuffer()
    gl.bindBuffer(gl.ARRAY_BUFFER, buffer)
    gl.bufferData(gl.ARRAY_BUFFER, ends, gl.STREAM_DRAW)
    gl.disable(gl.DEPTH_TEST)
    gl.uniform3f(of(this.edge, 'away'), 0, 0, 0)
    gl.uniform1f(of(this.edge, 'ink'), 0.07)
    gl.uniform1f(of(this.edge, 'pen'), 1.3 * dots)
    gl.vertexAttribPointer(2, 3, gl.FLOAT, false, 24, 0)
    gl.vertexAttribPointer(3, 3, gl.FLOAT, false, 24, 12)
    gl.drawArraysInstanced(gl.TRIANGLE_STRIP, 0, 4, bars.length)
    gl.deleteBuffer(buffer)
  }
}

function program(gl: WebGL2RenderingContext, vertex: string, fragment: string): WebGLProgram {
  const p = gl.createProgram()
  for (const [kind, text] of [[gl.VERTEX_SHADER, vertex], [gl.FRAGMENT_SHADER, fragment]] as const) {
    const s = gl.createShader(kind)
    if (!s) throw new Error('no shader')
    gl.shaderSource(s, text)
    gl.compileShader(s)
    gl.attachShader(p, s)
  }
  gl.linkProgram(p)
  if (!gl.getProgramParameter(p, gl.LINK_STATUS)) throw new Error(gl.getProgramInfoLog(p) ?? 'the picture cannot be drawn')
  return p
}

/** handle lets a person turn, shift and zoom what a canvas shows: mouse, touch and keys. */
export function handle(canvas: HTMLElement, camera: import('./camera').Camera, changed: () => void): void {
  const down = new Map<number, { x: number, y: number }>()
  canvas.addEventListener('pointerdown', e => {
    canvas.setPointerCapture(e.pointerId)
    down.set(e.pointerId, { x: e.clientX, y: e.clientY })
  })
  canvas.addEventListener('pointermove', e => {
    const was = down.get(e.pointerId)
    if (!was) return
    const dx = e.clientX - was.x, dy = e.clientY - was.y
    if (down.size === 1) {
      if (e.shiftKey || e.buttons === 4) {
        camera.shiftX += 2 * dx / canvas.clientWidth
        camera.shiftY -= 2 * dy / canvas.clientHeight
      } else {
        camera.turn -= dx * 0.01
        camera.lift = Math.max(-0.3, Math.min(1.5, camera.lift + dy * 0.01))
      }
    } else {
      const [a, b] = [...down.values()]
      const gap = Math.hypot(a!.x - b!.x, a!.y - b!.y)
      down.set(e.pointerId, { x: e.clientX, y: e.clientY })
      const [c, d] = [...down.values()]
      camera.zoom = Math.max(0.5, Math.min(8, camera.zoom * Math.hypot(c!.x - d!.x, c!.y - d!.y) / Math.max(1, gap)))
      camera.shiftX += dx / canvas.clientWidth
      camera.shiftY -= dy / canvas.clientHeight
    }
    down.set(e.pointerId, { x: e.clientX, y: e.clientY })
    changed()
  })
  for (const end of ['pointerup', 'pointercancel'] as const) canvas.addEventListener(end, e => { down.delete(e.pointerId) })
  canvas.addEventListener('wheel', e => {
    if (!e.ctrlKey && !e.metaKey) return // the page scrolls; a pinch on a pad comes with ctrl
    e.preventDefault()
    camera.zoom = Math.max(0.5, Math.min(8, camera.zoom * Math.exp(-e.deltaY * 0.01)))
    changed()
  }, { passive: false })
  canvas.addEventListener('dblclick', () => { camera.reset(); changed() })
  canvas.addEventListener('keydown', e => {
    switch (e.key) {
      case 'ArrowLeft': camera.turn += 0.1; break
      case 'ArrowRight': camera.turn -= 0.1; break
      case 'ArrowUp': camera.lift = Math.min(1.5, camera.lift + 0.1); break
      case 'ArrowDown': camera.lift = Math.max(-0.3, camera.lift - 0.1); break
      case '+': case '=': camera.zoom = Math.min(8, camera.zoom * 1.15); break
      case '-': camera.zoom = Math.max(0.5, camera.zoom / 1.15); break
      case 'Home': case '0': camera.reset(); break
      default: return
    }
    e.preventDefault()
    changed()
  })
}
