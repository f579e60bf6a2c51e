// Where the picture is seen from: without perspective, as the drawings are.

export class Camera {
  turn = 0.62 // radians from the front toward the right
  lift = 0.42 // radians above level
  zoom = 1
  shiftX = 0 // of the picture's half width
  shiftY = 0

  reset(): void { this.turn = 0.62; this.lift = 0.42; this.zoom = 1; this.shiftX = 0; this.shiftY = 0 }

  /** matrix takes places of the piece (mm), turned about middle, to the clip space of a picture of that shape. */
  matrix(low: ArrayLike<number>, high: ArrayLike<number>, shape: number, about?: readonly number[][]): Float32Array {
    const mid = [0, 1, 2].map(i => (low[i]! + high[i]!) / 2)
    const ct = Math.cos(this.turn), st = Math.sin(this.turn), cl = Math.cos(this.lift), sl = Math.sin(this.lift)
    let rows = [[ct, st, 0], [-st * sl, ct * sl, cl], [st * cl, -ct * cl, sl]] // right, up, toward the eye
    if (about) { // the work is turned first: v becomes X·vx + Y·vy + Z·vz
      rows = rows.map(r => [0, 1, 2].map(k => r[0]! * about[k]![0]! + r[1]! * about[k]![1]! + r[2]! * about[k]![2]!))
    }
    // As large as fits, whatever side is seen: the corners of the hull decide.
    let halfW = 1, halfH = 1, halfD = 1
    for (let c = 0; c < 8; c++) {
      const d = [0, 1, 2].map(i => ((c >> i) & 1 ? high[i]! : low[i]!) - mid[i]!)
      const on = (r: number[]): number => Math.abs(r[0]! * d[0]! + r[1]! * d[1]! + r[2]! * d[2]!)
      halfW = Math.max(halfW, on(rows[0]!))
      halfH = Math.max(halfH, on(rows[1]!))
      halfD = Math.max(halfD, on(rows[2]!))
    }
    const scale = this.zoom * 0.94 / Math.max(halfW / shape, halfH)
    const s = [scale / shape, scale, -0.4 / halfD]
    const shift = [this.shiftX, this.shiftY, 0]
    const m = new Float32Array(16)
    for (let r = 0; r < 3; r++) {
      const row = rows[r]!
      for (let k = 0; k < 3; k++) m[k * 4 + r] = row[k]! * s[r]!
      m[12 + r] = -(row[0]! * mid[0]! + row[1]! * mid[1]! + row[2]! * mid[2]!) * s[r]! + shift[r]!
    }
    m[15] = 1
    return m
  }
}
