//go:build !js

package main

import (
	"fmt"
	"os"
)

func main() {
	fmt.Fprintln(os.Stderr, "scantlingwasm: the engine for a browser; build it with GOOS=js GOARCH=wasm, or run make web")
	os.Exit(2)
}
