// The service worker of a published folder: once opened, the plan is read from
// this device. Its first lines, written when the folder is published, name the
// edition and its files.
declare const edition: string
declare const files: string[]

interface Event_ extends Event { waitUntil(p: Promise<unknown>): void, respondWith(r: Promise<Response>): void, readonly request: Request }
interface Scope { skipWaiting(): Promise<void>, clients: { claim(): Promise<void> }, addEventListener(kind: string, f: (e: Event_) => void): void }
const scope = self as unknown as Scope

scope.addEventListener('install', e => { e.waitUntil(caches.open(edition).then(c => c.addAll(files)).then(() => scope.skipWaiting())) })
scope.addEventListener('activate', e => {
  e.waitUntil(caches.keys().then(all => Promise.all(all.filter(k => k !== edition && k.startsWith('scantling ')).map(k => caches.delete(k)))).then(() => scope.clients.claim()))
})
scope.addEventListener('fetch', e => {
  if (e.request.method === 'GET') e.respondWith(caches.match(e.request, { ignoreSearch: true }).then(r => r ?? fetch(e.request)))
})
