// Asks the engine, as WebAssembly, what a file of requests asks, and writes the
// answers: node ask.mjs WASM_EXEC ENGINE ASKED ANSWERS. ASKED is JSON: a list of
// {file, source, requests}. ANSWERS gets for each request its text and its scene,
// each after its length (uint32, little-endian).
import { readFileSync, writeFileSync } from 'node:fs'

const [, , wasmExec, engine, asked, answers] = process.argv
globalThis.require = (await import('node:module')).createRequire(import.meta.url)
new Function(readFileSync(wasmExec, 'utf8'))()
const go = new globalThis.Go()
const { instance } = await WebAssembly.instantiate(readFileSync(engine), go.importObject)
go.run(instance)
const x = instance.exports
const utf8 = new TextEncoder()

function write(bytes) {
  const at = x.take(bytes.length)
  new Uint8Array(x.mem.buffer, at, bytes.length).set(bytes)
}

const out = []
function read(at, size) {
  const head = Buffer.alloc(4)
  head.writeUInt32LE(size)
  out.push(head, Buffer.from(new Uint8Array(x.mem.buffer, at, size)))
}

for (const { file, source, requests } of JSON.parse(readFileSync(asked, 'utf8'))) {
  write(utf8.encode(file + '\0' + source))
  x.open()
  for (const r of requests) {
    write(utf8.encode(JSON.stringify(r)))
    r.files ? x.write_files() : x.ask()
    read(x.text_at(), x.text_size())
    read(x.scene_at(), x.scene_size())
  }
}
writeFileSync(answers, Buffer.concat(out))
process.exit(0)
