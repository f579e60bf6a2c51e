package main

import (
	"bytes"
	"context"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"scantling/internal/start"
)

func TestNewAsks(t *testing.T) {
	for _, c := range []struct {
		name    string
		answers string
		flags   newCommand
		code    int
		says    []string // on either stream
		holds   []string // in the file
	}{
		{"everything", "gate\nus\nOrchard gate\n42\"\n44\nsoil\ncedar\n", newCommand{}, exitReady,
			[]string{"planter  a lined box", "What shall it be? [table] ", `from 30" to 48"? [40"] `, "is begun", "scantling check"},
			[]string{"piece: Orchard gate", `{is: 42", from`, `{is: 44", from`, "bare soil", "western red cedar"}},
		{"nothing is answered", "", newCommand{}, exitReady, []string{"[grass]"}, []string{"piece: Table\n", `{is: 48", from`}},
		{"empty lines", "bench\n\n\n\n\n\n\n\n", newCommand{}, exitReady, nil, []string{"piece: Bench\n", "southern pine"}},
		{"flags are not asked for", "Stool\n16\n", newCommand{Region: "us", What: "bench", Length: "30", Depth: "14", Stands: "deck", Wood: "cedar"}, exitReady,
			[]string{"What is it called?", "How much is the height"}, []string{"piece: Stool\n", `{is: 30", from`, `{is: 14", from`, `{is: 16", from`, "It stands on a deck"}},
		{"a wrong answer down a pipe", "bench\n\n\n9'\n48\n", newCommand{}, exitMisuse, []string{`a length of 108"; take 30" to 60"`, "--length"}, nil},
		{"in the UK", "table\nuk\n\n1500\n", newCommand{}, exitReady, []string{"from 910 mm to 1830 mm? [1220 mm]"}, []string{"region: UK and Europe", "{is: 1500 mm, from: 910 mm", "size: 45x95, wood: redwood"}},
		{"nowhere", "table\nmars\n", newCommand{}, exitMisuse, []string{"say us, uk, eu, au or nz"}, nil},
		{"a wrong flag", "", newCommand{What: "bed"}, exitMisuse, []string{"“bed” cannot be begun here", "--what"}, nil},
		{"a wrong flag asked for later", "", newCommand{What: "gate", Depth: "2"}, exitMisuse, []string{"a gate has no depth"}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			var out, errs bytes.Buffer
			c.flags.Out = filepath.Join(t.TempDir(), "piece.yaml")
			code := c.flags.run(context.Background(), strings.NewReader(c.answers), &out, &errs)
			if code != c.code {
				t.Errorf("exit %d, want %d", code, c.code)
			}
			for _, want := range c.says {
				if !strings.Contains(out.String()+errs.String(), want) {
					t.Errorf("does not say %q", want)
				}
			}
			text, err := os.ReadFile(c.flags.Out)
			if (err == nil) != (c.holds != nil) {
				t.Errorf("a file was written or is missing: %v", err)
			}
			for _, want := range c.holds {
				if !strings.Contains(string(text), want) {
					t.Errorf("the file does not hold %q", want)
				}
			}
			if t.Failed() {
				t.Logf("%s%s%s", out.String(), errs.String(), text)
			}
		})
	}
}

// A person is asked again for an answer that will not do.
func TestNewAsksAgain(t *testing.T) {
	var out bytes.Buffer
	k := newAsker(context.Background(), strings.NewReader("bensh\nbench\n\n9'\n4'\n\n\n\n\n"), &out)
	k.patient = true
	var a start.Answers
	if err := k.all(&a, false); err != nil || a.What != "bench" || a.Length != "4'" || !strings.Contains(out.String(), "did you mean bench?") {
		t.Errorf("%+v, %v after\n%s", a, err, out.String())
	}
}

func TestNewSpares(t *testing.T) {
	file := filepath.Join(t.TempDir(), "bench.yaml")
	if err := os.WriteFile(file, []byte("mine"), 0o644); err != nil {
		t.Fatal(err)
	}
	args := []string{"new", "--what=bench", "--name=Bench", "--length=4'", "--depth=15", "--height=17", "--stands=grass", "--wood=cedar", "-o", file}
	code, _, errs := command(t, args...)
	if text, _ := os.ReadFile(file); code != exitMisuse || !strings.Contains(errs, "is there already") || string(text) != "mine" {
		t.Errorf("exit %d, %s; the file holds %.80q", code, errs, text)
	}
	code, out, errs := command(t, append(args, "--force")...)
	if code != exitReady || !strings.Contains(out, "is begun") {
		t.Errorf("exit %d\n%s%s", code, out, errs)
	}
	if code, out, errs := command(t, "check", file); code != exitReady {
		t.Errorf("what is begun does not check: exit %d\n%s%s", code, out, errs)
	}
	if code, out, errs := command(t, "tidy", "--check", file); code != exitReady {
		t.Errorf("what is begun is not tidy: exit %d\n%s%s", code, out, errs)
	}
	code, _, errs = command(t, append(args, "-o", filepath.Join(file, "nowhere.yaml"))...)
	if code != exitMisuse || !strings.Contains(errs, "cannot write") {
		t.Errorf("exit %d: %s", code, errs)
	}
}

func TestNewStopped(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	in, w := io.Pipe() // a person who says nothing
	defer w.Close()
	var out, errs bytes.Buffer
	c := newCommand{Out: filepath.Join(t.TempDir(), "none.yaml")}
	if code := c.run(ctx, in, &out, &errs); code != exitMisuse || !strings.Contains(errs.String(), "nothing was written") {
		t.Errorf("exit %d: %s", code, errs.String())
	}
}

func TestFileName(t *testing.T) {
	for piece, want := range map[string]string{"Picker's chair": "pickers-chair.yaml", "  Box / No. 2": "box-no-2.yaml", "../..": "piece.yaml", "Bänk": "bänk.yaml", "": "piece.yaml"} {
		if got := fileName(piece); got != want {
			t.Errorf("%q is kept in %s, want %s", piece, got, want)
		}
	}
}
