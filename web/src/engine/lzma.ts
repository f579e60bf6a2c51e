// The decoder of the LZMA stream that `xz --format=lzma` writes, after the LZMA
// specification (Igor Pavlov, 2015, public domain). A page of one file carries its
// engine so: a quarter smaller than gzip makes it, and browsers cannot read any
// better by themselves.

const states = 12
const posStatesMax = 16

class Range {
  private range = 0xffffffff
  private code = 0
  constructor(private readonly from: Uint8Array, private at: number) {
    this.at++
    for (let i = 0; i < 4; i++) this.code = ((this.code << 8) | this.byte()) >>> 0
  }

  private byte(): number { return this.from[this.at++] ?? 0 }

  bit(probs: Uint16Array, i: number): number {
    const p = probs[i]!
    const bound = (this.range >>> 11) * p
    let bit = 0
    if (this.code < bound) {
      this.range = bound
      probs[i] = p + ((2048 - p) >> 5)
    } else {
      this.range = (this.range - bound) >>> 0
      this.code = (this.code - bound) >>> 0
      probs[i] = p - (p >> 5)
      bit = 1
    }
    if (this.range < 0x1000000) {
      this.range = (this.range << 8) >>> 0
      this.code = ((this.code << 8) | this.byte()) >>> 0
    }
    return bit
  }

  direct(bits: number): number {
    let v = 0
    for (; bits > 0; bits--) {
      this.range >>>= 1
      let bit = 0
      if (this.code >= this.range) {
        this.code = (this.code - this.range) >>> 0
        bit = 1
      }
      v = ((v << 1) | bit) >>> 0
      if (this.range < 0x1000000) {
        this.range = (this.range << 8) >>> 0
        this.code = ((this.code << 8) | this.byte()) >>> 0
      }
    }
    return v
  }

  tree(probs: Uint16Array, from: number, bits: number): number {
    let m = 1
    for (let i = 0; i < bits; i++) m = (m << 1) | this.bit(probs, from + m)
    return m - (1 << bits)
  }

  reverse(probs: Uint16Array, from: number, bits: number): number {
    let m = 1
    let v = 0
    for (let i = 0; i < bits; i++) {
      const bit = this.bit(probs, from + m)
      m = (m << 1) | bit
      v |= bit << i
    }
    return v
  }
}

const probs = (n: number): Uint16Array => new Uint16Array(n).fill(1024)

class Lengths {
  private readonly choice = probs(2)
  private readonly low = probs(posStatesMax << 3)
  private readonly mid = probs(posStatesMax << 3)
  private readonly high = probs(256)

  read(rc: Range, posState: number): number {
    if (rc.bit(this.choice, 0) === 0) return rc.tree(this.low, posState << 3, 3)
    if (rc.bit(this.choice, 1) === 0) return 8 + rc.tree(this.mid, posState << 3, 3)
    return 16 + rc.tree(this.high, 0, 8)
  }
}

/** unlzma returns what the stream holds. It throws on a stream that is broken or longer than it says. */
export function unlzma(packed: Uint8Array): Uint8Array<ArrayBuffer> {
  const head = new DataView(packed.buffer, packed.byteOffset, packed.byteLength)
  let props = head.getUint8(0)
  const lc = props % 9
  props = (props - lc) / 9
  const lp = props % 5
  const pb = (props - lp) / 5
  const said = head.getUint32(5, true) === 0xffffffff ? -1 : head.getUint32(5, true) + head.getUint32(9, true) * 2 ** 32
  let out: Uint8Array<ArrayBuffer> = new Uint8Array(said >= 0 ? said : 1 << 24)
  let n = 0

  const rc = new Range(packed, 13)
  const literal = probs(0x300 << (lc + lp))
  const isMatch = probs(states << 4)
  const isRep = probs(states)
  const isRep0 = probs(states)
  const isRep1 = probs(states)
  const isRep2 = probs(states)
  const isRep0Long = probs(states << 4)
  const slots = probs(4 << 6)
  const align = probs(16)
  const special = probs(1 + 128 - 14 + 128)
  const matchLengths = new Lengths()
  const repLengths = new Lengths()

  let state = 0
  let rep0 = 0
  let rep1 = 0
  let rep2 = 0
  let rep3 = 0
  const posMask = (1 << pb) - 1
  const lpMask = (1 << lp) - 1

  while (said < 0 || n < said) {
    const posState = n & posMask
    if (rc.bit(isMatch, (state << 4) + posState) === 0) {
      const before = n > 0 ? out[n - 1]! : 0
      const from = 0x300 * (((n & lpMask) << lc) + (before >> (8 - lc)))
      let symbol = 1
      if (state >= 7) {
        let match = out[n - rep0 - 1]!
        do {
          const bit = (match >> 7) & 1
          match = (match << 1) & 0xff
          const got = rc.bit(literal, from + ((1 + bit) << 8) + symbol)
          symbol = (symbol << 1) | got
          if (bit !== got) break
        } while (symbol < 0x100)
      }
      while (symbol < 0x100) symbol = (symbol << 1) | rc.bit(literal, from + symbol)
      if (n === out.length) out = larger(out)
      out[n++] = symbol & 0xff
      state = state < 4 ? 0 : state < 10 ? state - 3 : state - 6
      continue
    }
    let length: number
    if (rc.bit(isRep, state) !== 0) {
      if (rc.bit(isRep0, state) === 0) {
        if (rc.bit(isRep0Long, (state << 4) + posState) === 0) {
          state = state < 7 ? 9 : 11
          if (n === out.length) out = larger(out)
          out[n] = out[n - rep0 - 1]!
          n++
          continue
        }
      } else {
        let distance: number
        if (rc.bit(isRep1, state) === 0) distance = rep1
        else {
          if (rc.bit(isRep2, state) === 0) distance = rep2
          else {
            distance = rep3
            rep3 = rep2
          }
          rep2 = rep1
        }
        rep1 = rep0
        rep0 = distance
      }
      length = repLengths.read(rc, posState)
      state = state < 7 ? 8 : 11
    } else {
      rep3 = rep2
      rep2 = rep1
      rep1 = rep0
      length = matchLengths.read(rc, posState)
      state = state < 7 ? 7 : 10
      const slot = rc.tree(slots, Math.min(length, 3) << 6, 6)
      rep0 = slot
      if (slot >= 4) {
        const bits = (slot >> 1) - 1
        rep0 = ((2 | (slot & 1)) << bits) >>> 0
        if (slot < 14) rep0 += rc.reverse(special, rep0 - slot, bits)
        else rep0 = (rep0 + ((rc.direct(bits - 4) << 4) >>> 0) + rc.reverse(align, 0, 4)) >>> 0
      }
      if (rep0 === 0xffffffff) break // the end mark
    }
    length += 2
    if (rep0 >= n) throw new Error('the packed engine is broken')
    while (n + length > out.length) out = larger(out)
    for (; length > 0; length--, n++) out[n] = out[n - rep0 - 1]!
  }
  return said >= 0 ? out : out.subarray(0, n)
}

function larger(a: Uint8Array): Uint8Array<ArrayBuffer> {
  const b = new Uint8Array(a.length * 2)
  b.set(a)
  return b
}
