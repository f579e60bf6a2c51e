// Builds what a page is made of into dist/: scripts, style, letters, and the
// engine as WebAssembly, once small and once whole. Run through make web.
import { build } from 'esbuild'
import { execFileSync } from 'node:child_process'
import { copyFileSync, mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { gzipSync } from 'node:zlib'

const here = dirname(fileURLToPath(import.meta.url))
const dist = join(here, 'dist')
mkdirSync(dist, { recursive: true })

const root = execFileSync('go', ['env', 'GOROOT'], { encoding: 'utf8' }).trim()
const loader = readFileSync(join(root, 'lib/wasm/wasm_exec.js'), 'utf8')

const common = { bundle: true, minify: true, format: 'iife', target: 'es2022', charset: 'utf8', logLevel: 'warning', absWorkingDir: here }
await build({ ...common, entryPoints: ['src/main.ts'], outfile: 'dist/page.js' })
await build({ ...common, entryPoints: ['src/engine/worker.ts'], outfile: 'dist/worker.js', banner: { js: loader } })
await build({ ...common, entryPoints: ['src/offline.ts'], outfile: 'dist/offline.js' })
await build({ ...common, entryPoints: ['src/page.css'], outfile: 'dist/page.css', external: ['*.ttf'] })
for (const face of ['Regular', 'Semibold']) copyFileSync(join(here, `../internal/typeset/ScantlingSans-${face}.ttf`), join(dist, `${face.toLowerCase()}.ttf`))

if (process.argv[2] === 'scripts') process.exit() // the engine is there already

const env = { ...process.env, GOOS: 'js', GOARCH: 'wasm' }
const go = (out, ...tags) => execFileSync('go', ['build', '-trimpath', '-buildvcs=false', ...tags, '-ldflags=-s -w', '-o', join(dist, out), './cmd/scantlingwasm'], { cwd: join(here, '..'), env, stdio: 'inherit' })
go('engine.wasm')
go('whole.wasm', '-tags=whole')
for (const name of ['engine', 'whole']) writeFileSync(join(dist, `${name}.wasm.gz`), gzipSync(readFileSync(join(dist, `${name}.wasm`)), { level: 9 }))
// A page of one file is a quarter smaller so, and its reader is 200 lines.
writeFileSync(join(dist, 'whole.lzma'), execFileSync('xz', ['-9', '--format=lzma', '-c', join(dist, 'whole.wasm')], { maxBuffer: 1 << 28 }))

for (const f of ['page.js', 'worker.js', 'page.css', 'engine.wasm.gz', 'whole.wasm.gz', 'whole.lzma']) console.log(`${String(statSync(join(dist, f)).size).padStart(9)} ${f}`)
