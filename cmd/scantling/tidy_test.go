package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestTidyCommand(t *testing.T) {
	dir := t.TempDir()
	file, link := filepath.Join(dir, "bench.yaml"), filepath.Join(dir, "link.yaml")
	const untidy, ordered = "piece: Bench  \nlet:\n\ta: 1\"\n\n\n", "piece: Bench\n\nlet:\n  a: 1\"\n"
	holds := func(want string) {
		t.Helper()
		if got, err := os.ReadFile(file); err != nil || string(got) != want {
			t.Fatalf("the file holds %q, want %q (%v)", got, want, err)
		}
	}
	if err := os.WriteFile(file, []byte(untidy), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink("bench.yaml", link); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name string
		args []string
		code int
		says string
		then string // what the file holds afterwards
	}{
		{"asked", []string{"tidy", file, "--check"}, exitErrors, "not tidy", untidy},
		{"done, through a link", []string{"tidy", link}, exitReady, "put in order", ordered},
		{"asked again", []string{"tidy", "--check", file}, exitReady, "tidy.", ordered},
		{"done again", []string{"tidy", file}, exitReady, "tidy.", ordered},
		{"no such file", []string{"tidy", "nowhere.yaml"}, exitMisuse, "nowhere.yaml", ordered},
	} {
		code, out, errs := command(t, c.args...)
		if code != c.code || !strings.Contains(out+errs, c.says) {
			t.Errorf("%s: exit %d, want %d, saying %q\n%s%s", c.name, code, c.code, c.says, out, errs)
		}
		holds(c.then)
	}
	if info, err := os.Stat(file); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("the file is %v now (%v)", info.Mode(), err)
	}
	if info, err := os.Lstat(link); err != nil || info.Mode()&os.ModeSymlink == 0 {
		t.Errorf("the link is %v now (%v)", info.Mode(), err)
	}

	const bad = "piece: Bench  \npiece: Table\n"
	if err := os.WriteFile(file, []byte(bad), 0o600); err != nil {
		t.Fatal(err)
	}
	code, _, errs := command(t, "tidy", file)
	if code != exitErrors || !strings.Contains(errs, "bench.yaml:2:1") || !strings.Contains(errs, "nothing was changed") {
		t.Errorf("exit %d\n%s", code, errs)
	}
	holds(bad)
}
