package main

import (
	"runtime/debug"
	"unsafe"

	"scantling/internal/plan"
)

var (
	session *plan.Session
	in      []byte
	out     answer
)

func main() {
	// A drag makes much short-lived memory, and there is one thread for all.
	debug.SetGCPercent(400)
	select {} // the exported functions are called from now on
}

// take makes room for a request of so many bytes and returns where.
//
//go:wasmexport take
func take(n int32) unsafe.Pointer {
	in = make([]byte, n)
	return pointer(in)
}

// open begins a session with the design file that was written, after its name and
// a zero byte.
//
//go:wasmexport open
func open() {
	for i, c := range in {
		if c == 0 {
			session = plan.Open(string(in[:i]), in[i+1:])
			return
		}
	}
}

// ask answers the request that was written.
//
//go:wasmexport ask
func ask() { out = run(session, in) }

//go:wasmexport text_at
func textAt() unsafe.Pointer { return pointer(out.text) }

//go:wasmexport text_size
func textSize() int32 { return int32(len(out.text)) }

//go:wasmexport scene_at
func sceneAt() unsafe.Pointer { return pointer(out.scene) }

//go:wasmexport scene_size
func sceneSize() int32 { return int32(len(out.scene)) }

func pointer(b []byte) unsafe.Pointer { return unsafe.Pointer(unsafe.SliceData(b)) }
