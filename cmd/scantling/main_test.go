package main

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

const table = "../../examples/sorting-table.yaml"

func command(t *testing.T, args ...string) (code int, out, errs string) {
	t.Helper()
	var o, e bytes.Buffer
	code = run(context.Background(), args, &o, &e)
	return code, o.String(), e.String()
}

func TestPlanWritesEverything(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "table")
	code, out, errs := command(t, "plan", table, "-o", dir)
	if code != exitReady {
		t.Fatalf("exit %d\n%s%s", code, out, errs)
	}
	for _, want := range []string{"plan.pdf", "plan.json", "lists/boards.csv", "lists/parts.csv", "lists/cuts.csv",
		"lists/hardware.csv", "drawings/corner.svg", "drawings/front.svg", "drawings/side.svg", "drawings/top.svg", "drawings/step-01.svg"} {
		if info, err := os.Stat(filepath.Join(dir, want)); err != nil || info.Size() == 0 {
			t.Errorf("%s was not written (%v)", want, err)
		}
	}
	for _, want := range []string{"boards to buy", "$", "plan.pdf"} {
		if !strings.Contains(out, want) {
			t.Errorf("the summary does not say %q:\n%s", want, out)
		}
	}
	// A drawing an earlier plan left behind goes; a stranger's file stays.
	for _, name := range []string{"drawings/step-99.svg", "notes.txt"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte("x"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	before, _ := os.ReadFile(filepath.Join(dir, "plan.pdf"))
	command(t, "plan", table, "-o", dir)
	after, _ := os.ReadFile(filepath.Join(dir, "plan.pdf"))
	if !bytes.Equal(before, after) {
		t.Error("the same design gave another PDF")
	}
	if _, err := os.Stat(filepath.Join(dir, "drawings/step-99.svg")); err == nil {
		t.Error("a drawing of an earlier plan was left behind")
	}
	if _, err := os.Stat(filepath.Join(dir, "notes.txt")); err != nil {
		t.Error("a file that is not the plan's was taken away")
	}
}

func TestExitCodes(t *testing.T) {
	bad := filepath.Join(t.TempDir(), "bad.yaml")
	if err := os.WriteFile(bad, []byte("piece: Bench\nparts:\n  leg: {of: oak_stock}\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name string
		args []string
		code int
		says string // on either stream
	}{
		{"clean", []string{"check", table}, exitReady, "no errors"},
		{"a size set", []string{"check", table, "--set", "length=7'"}, exitReady, "no errors"},
		{"a size outside its range", []string{"check", table, "--set", "length=9'"}, exitErrors, "8'"},
		{"a size there is not", []string{"check", table, "--set", "lenght=7'"}, exitErrors, "length"},
		{"a setting without =", []string{"check", table, "--set", "length"}, exitMisuse, "--set length=7'"},
		{"an error in the file", []string{"check", bad}, exitErrors, "bad.yaml:3:"},
		{"no such file", []string{"check", "nowhere.yaml"}, exitMisuse, "nowhere.yaml"},
		{"no such command", []string{"paint", table}, exitMisuse, "paint"},
		{"no such paper", []string{"plan", table, "--paper", "a5"}, exitMisuse, "a4"},
		{"no such region", []string{"check", table, "--region", "mars"}, exitMisuse, "write us, uk, eu, au or nz"},
		{"no such units", []string{"check", table, "--units", "cubits"}, exitMisuse, "write inch or metric"},
		{"units that are not the region's", []string{"check", table, "--units", "inch", "--region", "uk"}, exitMisuse, "leave one of them out"},
		{"a tape that is not the edition's", []string{"check", table, "--units", "metric", "--tape", "1/32"}, exitMisuse, "every millimetre"},
		{"a code explained", []string{"explain", "loop"}, exitReady, ""},
		{"a code there is not", []string{"explain", "loup"}, exitMisuse, "loup"},
		{"codes listed", []string{"explain"}, exitReady, "duplicate-key"},
		{"help", []string{"--help"}, exitReady, "plan"},
	} {
		t.Run(c.name, func(t *testing.T) {
			code, out, errs := command(t, c.args...)
			if code != c.code || !strings.Contains(out+errs, c.says) {
				t.Errorf("scantling %v: exit %d, want %d, saying %q\n%s%s", c.args, code, c.code, c.says, out, errs)
			}
		})
	}
}

func TestErrorsStillWriteThePlan(t *testing.T) {
	src, err := os.ReadFile(table)
	if err != nil {
		t.Fatal(err)
	}
	bad := filepath.Join(t.TempDir(), "bad.yaml")
	// A need that cannot hold: nothing else about the table is wrong.
	src = bytes.Replace(src, []byte("\nuse:"), []byte("\n  - {that: length < 1', else: Far too long.}\nuse:"), 1)
	if err := os.WriteFile(bad, src, 0o644); err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	code, _, errs := command(t, "plan", bad, "-o", dir)
	if code != exitErrors || !strings.Contains(errs, "Far too long.") {
		t.Fatalf("exit %d\n%s", code, errs)
	}
	text, err := os.ReadFile(filepath.Join(dir, "plan.json"))
	if err != nil {
		t.Fatal(err)
	}
	var doc struct {
		Piece struct{ Ready bool }
		Parts []any
	}
	if err := json.Unmarshal(text, &doc); err != nil || doc.Piece.Ready || len(doc.Parts) == 0 {
		t.Errorf("ready %v with %d parts (%v); want a plan marked not ready, with its parts", doc.Piece.Ready, len(doc.Parts), err)
	}
}

func TestStoppedWritesNothing(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	dir := filepath.Join(t.TempDir(), "none")
	var o, e bytes.Buffer
	if code := run(ctx, []string{"plan", table, "-o", dir}, &o, &e); code != exitMisuse || !strings.Contains(e.String(), "stopped") {
		t.Errorf("exit %d: %s", code, e.String())
	}
	if _, err := os.Stat(dir); err == nil {
		t.Error("a stopped run wrote something")
	}
}

func TestJSONOnStandardOutput(t *testing.T) {
	for _, args := range [][]string{{"plan", table, "--json"}, {"check", table, "--json"}, {"schema"}} {
		_, out, _ := command(t, args...)
		if !json.Valid([]byte(out)) {
			t.Errorf("%v prints no JSON: %.200s", args, out)
		}
	}
}
