//go:build !js

package main

import (
	"bytes"
	"context"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"scantling/internal/measure"
	"scantling/internal/plan"
)

// Compiled for a browser the engine gives the bytes it gives here: one session
// after many edits against a fresh session for each, for every example.
func TestBrowserAndNativeAgree(t *testing.T) {
	dir := t.TempDir()
	engine := filepath.Join(dir, "engine.wasm")
	build := exec.Command("go", "build", "-tags", "whole", "-ldflags", "-s -w", "-o", engine, ".")
	build.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	if out, err := build.CombinedOutput(); err != nil {
		t.Fatalf("the engine does not build for a browser: %v\n%s", err, out)
	}

	type ask struct {
		request
		Files bool `json:"files,omitempty"`
	}
	type asked struct {
		File     string `json:"file"`
		Source   string `json:"source"`
		Requests []ask  `json:"requests"`
	}
	files, err := filepath.Glob("../../examples/*.yaml")
	if err != nil || len(files) < 5 {
		t.Fatalf("only %d examples: %v", len(files), err)
	}
	random := rand.New(rand.NewPCG(6, 0))
	var all []asked
	for i, path := range files {
		src, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		a := asked{File: filepath.Base(path), Source: string(src)}
		p, err := plan.Open(a.File, src).Run(context.Background(), plan.Options{})
		if err != nil {
			t.Fatal(err)
		}
		for range 8 {
			a.Requests = append(a.Requests, ask{request: request{Set: anySettings(random, p)}})
		}
		a.Requests = append(a.Requests, ask{request: request{Want: plan.Settled, Editing: true}},
			ask{request: request{Want: plan.Live, Set: [][]string{{"no_such", "1"}}}}, ask{request: request{Kerf: "wide"}})
		switch i {
		case 0:
			a.Requests = append(a.Requests, ask{Files: true, request: request{Paper: "a4"}})
		case 1:
			a.Requests = append(a.Requests, ask{request: request{Want: plan.Book, Set: anySettings(random, p)}})
		}
		all = append(all, a)
	}

	text, err := json.Marshal(all)
	if err != nil {
		t.Fatal(err)
	}
	in, answers := filepath.Join(dir, "asked.json"), filepath.Join(dir, "answers")
	if err := os.WriteFile(in, text, 0o644); err != nil {
		t.Fatal(err)
	}
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		t.Fatal(err)
	}
	node := exec.Command("node", "--stack-size=8192", "testdata/ask.mjs",
		filepath.Join(strings.TrimSpace(string(root)), "lib/wasm/wasm_exec.js"), engine, in, answers)
	if out, err := node.CombinedOutput(); err != nil {
		t.Fatalf("node: %v\n%s", err, out)
	}
	got, err := os.ReadFile(answers)
	if err != nil {
		t.Fatal(err)
	}
	next := func() []byte {
		if len(got) < 4 {
			t.Fatal("too few answers")
		}
		n := binary.LittleEndian.Uint32(got)
		b := got[4 : 4+n]
		got = got[4+n:]
		return b
	}
	for _, a := range all {
		for _, r := range a.Requests {
			body, _ := json.Marshal(r)
			fresh := plan.Open(a.File, []byte(a.Source))
			want := run(fresh, body)
			if r.Files {
				want = makeFiles(fresh, body)
			}
			if bad := bytes.HasPrefix(want.text, []byte(`{"error"`)); bad != (r.Kerf == "wide") {
				t.Errorf("%s, %s: understood: %v", a.File, body, !bad)
			}
			for _, x := range []struct {
				what       string
				want, have []byte
			}{{"words", want.text, next()}, {"figures", want.scene, next()}} {
				if !bytes.Equal(x.want, x.have) {
					t.Errorf("%s, %s: the %s differ: %s", a.File, body, x.what, firstDifference(x.want, x.have))
				}
			}
		}
	}
	if len(got) != 0 {
		t.Errorf("%d bytes more than asked for", len(got))
	}
}

func firstDifference(a, b []byte) string {
	for i := range min(len(a), len(b)) {
		if a[i] != b[i] {
			return fmt.Sprintf("at byte %d native has %q and the browser %q", i, a[i:min(i+60, len(a))], b[i:min(i+60, len(b))])
		}
	}
	return fmt.Sprintf("native has %d bytes, the browser %d", len(a), len(b))
}

// anySettings sets some sizes to some of their steps and some choices.
func anySettings(random *rand.Rand, p *plan.Plan) (out [][]string) {
	for _, z := range p.Piece.Sizes {
		if random.IntN(2) == 0 {
			n := random.IntN(int((z.Most.V-z.Least.V)/z.Step.V) + 1)
			v := z.Least.V + float64(float64(n)*z.Step.V)
			unit, one := " mm", 1e6
			switch z.Value.D {
			case measure.DimAngle:
				unit, one = "°", 1e9
			case measure.DimNone:
				unit, one = "", 1
			}
			out = append(out, []string{z.Name, fmt.Sprintf("%.6g%s", v/one, unit)})
		}
	}
	for _, c := range p.Piece.Choices {
		if random.IntN(2) == 0 {
			out = append(out, []string{c.Name, c.Of[random.IntN(len(c.Of))]})
		}
	}
	return out
}
